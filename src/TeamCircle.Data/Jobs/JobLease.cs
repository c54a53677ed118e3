using System.Data;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Jobs;

/// <summary>Lets one of several portals on one database do a job at a time. A portal that ends lets go of it by ending.</summary>
public sealed class JobLease(Portal portal)
{
    private const int Kind = 7202614;

    /// <summary>Held until it is disposed; null where another portal has it.</summary>
    public async Task<IAsyncDisposable?> TryTakeAsync(Job job, CancellationToken stop = default)
    {
        var work = await portal.OpenAsync(Scope.Job(0, 0, "the lease of a job"), IsolationLevel.ReadCommitted, null, stop);
        if (await work.Db.Database.SqlQuery<bool>($"select pg_try_advisory_xact_lock({Kind}, {(int)job}) as \"Value\"").SingleAsync(stop))
            return work;
        await work.DisposeAsync();
        return null;
    }
}
