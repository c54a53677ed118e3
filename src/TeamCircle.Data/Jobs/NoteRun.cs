using System.Data;

namespace TeamCircle.Data.Jobs;

/// <summary>Puts a run of a job on record.</summary>
public sealed class NoteRun(Portal portal, TimeProvider clock)
{
    public async Task RunAsync(JobRunRow run, CancellationToken stop = default)
    {
        run.EndedAt = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var work = await portal.OpenAsync(Scope.Job(run.AgencyId, 0, "a job's run"), IsolationLevel.ReadCommitted, null, stop);
        work.Db.Add(run);
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }
}
