using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Jobs;

/// <summary>An agency as a job sees it.</summary>
public sealed record JobAgency(int Id, DateTimeZone Zone);

/// <summary>Reads every agency of the installation with its zone, for what the portal does by the clock.</summary>
public sealed class ReadAgencies(Portal portal)
{
    public Task<IReadOnlyList<JobAgency>> RunAsync(CancellationToken stop = default) => portal.ReadAsync(Scope.Job(0, 0, "what is done by the clock"), async db =>
    {
        var found = await db.Database.SqlQuery<Found>($"select id, time_zone from portal.agency_zones()").ToListAsync(stop);
        return (IReadOnlyList<JobAgency>)[.. found.Select(a => new JobAgency(a.Id, DateTimeZoneProviders.Tzdb[a.TimeZone]))];
    }, stop);

    private sealed record Found(int Id, string TimeZone);
}
