using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Jobs;

/// <summary>What the portal did by the clock.</summary>
/// <param name="Now">In the agency's zone.</param>
/// <param name="Last">The last run of each job; a job that never ran is missing.</param>
public sealed record RunsPage(LocalDateTime Now, IReadOnlyList<JobShown> Last);

/// <summary>The last run of a job, in the agency's zone.</summary>
public sealed record JobShown(Job Job, LocalDateTime At, bool Failed, string Result);

/// <summary>Reads what the portal did by the clock.</summary>
public sealed class ReadRuns(Portal portal, TimeProvider clock)
{
    public Task<RunsPage> LastAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var last = db.JobRuns.Where(r => r.AgencyId == scope.AgencyId).GroupBy(r => r.Job).Select(g => g.Max(r => r.Id));
        var rows = await db.JobRuns.Where(r => r.AgencyId == scope.AgencyId && last.Contains(r.Id)).ToListAsync(stop);
        return new RunsPage(
            Instant.FromDateTimeOffset(clock.GetUtcNow()).InZone(zone).LocalDateTime,
            [.. rows.Select(r => new JobShown(r.Job, r.EndedAt.InZone(zone).LocalDateTime, r.Failed, r.Result))]);
    }, stop);

    /// <summary>Whether a nightly job has been done on a day of the agency's.</summary>
    public Task<bool> WasDoneAsync(int agency, Job job, LocalDate day, DateTimeZone zone, CancellationToken stop = default)
    {
        var (from, to) = (zone.AtStartOfDay(day).ToInstant(), zone.AtStartOfDay(day.PlusDays(1)).ToInstant());
        return portal.ReadAsync(Scope.Job(agency, 0, "a job's run"), db => db.JobRuns.AnyAsync(
            r => r.AgencyId == agency && r.Job == job && !r.Failed && r.StartedAt >= from && r.StartedAt < to, stop), stop);
    }
}
