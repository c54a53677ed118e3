using System.Data;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Walls;

/// <summary>Statements that a connection keeps prepared, for whoever uses it next.</summary>
public sealed class PreparedTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    // The driver prepares what it has sent five times; the database goes over to one plan for all values after five more.
    private const int OftenEnough = 16;
    private const string OneConnection = ";Maximum Pool Size=1";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Statement_prepared_for_one_shows_another_nothing_of_theirs()
    {
        await using var one = await TestAgency.CreateAsync(database, "P1", OneConnection);
        await using var other = await TestAgency.CreateAsync(database, "P2", OneConnection);
        var wren = await one.AddAsync(new LearnerRow { Code = "WREN", Name = "Wren Belmares", MostMinutesADay = 90 });
        await one.AddAsync(new LearnerRow { Code = "JONAH", Name = "Jonah Quill", MostMinutesADay = 90 });

        for (var time = 0; time < OftenEnough; time++)
            Assert.Equal(2, await CountAsync(one, one.WholeAgency));
        var server = await ServerAsync(one);
        Assert.True(await one.Portal.ReadAsync(one.WholeAgency, db => db.Database.SqlQuery<bool>(
            $"select exists (select from pg_prepared_statements where generic_plans > 0 and statement like '%portal.learners%') as \"Value\"").SingleAsync(Stop), Stop));

        Assert.Equal(0, await CountAsync(other, other.WholeAgency));
        Assert.Equal(1, await CountAsync(one, one.Person(one.Terminal, wren.Id)));
        Assert.Equal(0, await CountAsync(one, one.Person(one.Terminal)));
        Assert.Equal(2, await CountAsync(one, one.WholeAgency));
        Assert.Equal(server, await ServerAsync(other));
    }

    [Fact]
    public async Task Locked_rows_are_read_on_when_a_migration_adds_a_column()
    {
        await using var agency = await TestAgency.CreateAsync(database, "P3", OneConnection);
        var prepared = false;
        async Task<(int Rows, int Server)> LockAsync()
        {
            await using var work = await agency.Portal.OpenAsync(agency.WholeAgency, IsolationLevel.ReadCommitted, null, Stop);
            prepared = await work.Db.Database.SqlQuery<bool>(
                $"select exists (select from pg_prepared_statements where statement like '%portal.periods%for update%') as \"Value\"").SingleAsync(Stop);
            return ((await work.Db.Locked<PeriodRow>($"agency_id = {agency.Id}").ToListAsync(Stop)).Count, work.Connection.ProcessID);
        }
        var before = (Rows: 0, Server: 0);
        for (var time = 0; time < OftenEnough; time++)
            before = await LockAsync();
        Assert.True(prepared);

        await AlterAsync("add column added_meanwhile int");
        try
        {
            Assert.Equal(before, await LockAsync());
        }
        finally
        {
            await AlterAsync("drop column added_meanwhile");
        }
    }

    [Theory]
    [InlineData("", 200)]
    [InlineData(";Max Auto Prepare=0", 0)]
    [InlineData(";MaxAutoPrepare=7", 7)]
    public async Task Connection_string_may_say_how_many_are_kept(string said, int kept)
    {
        await using var agency = await TestAgency.CreateAsync(database, $"K{kept}", said);
        await using var work = await agency.Portal.OpenAsync(agency.WholeAgency, IsolationLevel.ReadCommitted, null, Stop);
        Assert.Equal(kept, new NpgsqlConnectionStringBuilder(work.Connection.ConnectionString).MaxAutoPrepare);
    }

    private static Task<int> CountAsync(TestAgency agency, Scope scope) => agency.Portal.ReadAsync(scope, db => db.Learners.CountAsync(Stop), Stop);

    private static Task<int> ServerAsync(TestAgency agency) =>
        agency.Portal.ReadAsync(agency.WholeAgency, db => db.Database.SqlQuery<int>($"select pg_backend_pid() as \"Value\"").SingleAsync(Stop), Stop);

    private async Task AlterAsync(string how)
    {
        await using var owner = new NpgsqlConnection(database.ConnectionString());
        await owner.OpenAsync(Stop);
        await using var alter = new NpgsqlCommand($"alter table portal.periods {how}", owner);
        await alter.ExecuteNonQueryAsync(Stop);
    }
}
