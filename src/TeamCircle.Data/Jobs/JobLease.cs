using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace TeamCircle.Data.Jobs;

/// <summary>Lets one of several portals on one database do a job at a time. A portal that ends lets go of it by ending; one that stands still, after <see cref="Portal.LongestStandstill"/>.</summary>
public sealed class JobLease([FromKeyedServices(JobLease.Door)] Portal portal)
{
    /// <summary>The way to the database by which leases are held, and nothing else.</summary>
    internal const string Door = "leases";

    private const int Kind = 7202614;

    /// <summary>How often a held lease is heard of, in seconds: far more often than the database waits for a transaction that stands still.</summary>
    private const int HeardOfEvery = 5;

    /// <summary>
    /// One place for each job, apart from those that work is done with: jobs that wait for a place to work with never hold what they wait for, however few
    /// places the portal is given.
    /// </summary>
    internal static string Connection(string connection) => new NpgsqlConnectionStringBuilder(connection)
    {
        ApplicationName = "TeamCircle leases",
        MinPoolSize = 0,
        MaxPoolSize = Enum.GetValues<Job>().Length,
        KeepAlive = HeardOfEvery,
    }.ConnectionString;

    /// <summary>Held until it is disposed; null where another portal has it.</summary>
    public async Task<HeldLease?> TryTakeAsync(Job job, CancellationToken stop = default)
    {
        var work = await portal.OpenAsync(Scope.Job(0, 0, "the lease of a job"), IsolationLevel.ReadCommitted, null, stop);
        if (await work.Db.Database.SqlQuery<bool>($"select pg_try_advisory_xact_lock({Kind}, {(int)job}) as \"Value\"").SingleAsync(stop))
            return new(work);
        await work.DisposeAsync();
        return null;
    }
}

/// <summary>A job that this portal has for itself.</summary>
public sealed class HeldLease(PortalWork work) : IAsyncDisposable
{
    /// <summary>Makes sure that it is still held.</summary>
    /// <exception cref="NpgsqlException">It is not: this portal stood still, or the database was away, and another may have the job.</exception>
    public Task CheckAsync(CancellationToken stop = default) => work.Db.Database.ExecuteSqlRawAsync("select 1", stop);

    public ValueTask DisposeAsync() => work.DisposeAsync();
}
