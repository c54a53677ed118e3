using Npgsql;
using TeamCircle.Data.Jobs;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Jobs;

/// <summary>What a lease of a job takes from the work, and how long it holds.</summary>
public sealed class JobLeaseTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task All_jobs_at_once_leave_the_places_for_work_free()
    {
        await using var agency = await TestAgency.CreateAsync(database, "FEW", ";Maximum Pool Size=2;Timeout=5");
        var held = await Task.WhenAll(Enum.GetValues<Job>().Select(job => agency.Get<JobLease>().TryTakeAsync(job, Stop)));

        Assert.All(held, Assert.NotNull);
        Assert.NotEmpty(await agency.Get<ReadAgencies>().RunAsync(Stop));
        foreach (var lease in held)
            await lease!.DisposeAsync();
    }

    [Fact]
    public async Task Held_lease_outlasts_long_work_and_one_that_was_taken_back_says_so()
    {
        await using var agency = await TestAgency.CreateAsync(database, "LONG");
        await using var lease = (await agency.Get<JobLease>().TryTakeAsync(Job.Series, Stop))!;
        await using var looking = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await looking.OpenAsync(Stop);
        const string Idle = "from pg_stat_activity where datname = current_database() and application_name = 'TeamCircle leases' and state = 'idle in transaction'";

        // The job works elsewhere, and asks nothing by this connection; the database hears of it all the same.
        var before = await AskAsync($"select state_change {Idle}");
        using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(30)); // long before the database takes back what stands still
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(100));
        while (before!.Equals(await AskAsync($"select state_change {Idle}")))
            await pace.WaitForNextTickAsync(soon.Token);
        await lease.CheckAsync(Stop);
        Assert.Null(await agency.Get<JobLease>().TryTakeAsync(Job.Series, Stop));

        Assert.Equal(true, await AskAsync($"select pg_terminate_backend(pid, 10000) {Idle}"));
        await Assert.ThrowsAnyAsync<NpgsqlException>(() => lease.CheckAsync(Stop));
        await using var other = await agency.Get<JobLease>().TryTakeAsync(Job.Series, Stop);
        Assert.NotNull(other);

        async Task<object?> AskAsync(string sql)
        {
            await using var command = new NpgsqlCommand(sql, looking);
            return await command.ExecuteScalarAsync(Stop);
        }
    }
}
