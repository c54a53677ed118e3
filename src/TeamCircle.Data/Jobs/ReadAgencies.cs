using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Jobs;

/// <summary>An agency as a job sees it.</summary>
public sealed record JobAgency(int Id, DateTimeZone Zone);

/// <summary>Reads every agency of the installation with its zone, for what the portal does by the clock.</summary>
public sealed class ReadAgencies(Portal portal)
{
    private const string Ground = "what is done by the clock";

    public async Task<IReadOnlyList<JobAgency>> RunAsync(CancellationToken stop = default)
    {
        var ids = await portal.ReadAsync(
            Scope.Job(0, 0, Ground), db => db.Database.SqlQuery<int>($"select portal.agency_ids() as \"Value\"").ToListAsync(stop), stop);
        var agencies = new List<JobAgency>();
        foreach (var id in ids)
        {
            var zone = await portal.ReadAsync(Scope.Job(id, 0, Ground), db => db.Agencies.Where(a => a.Id == id).Select(a => a.TimeZone).SingleAsync(stop), stop);
            agencies.Add(new(id, DateTimeZoneProviders.Tzdb[zone]));
        }
        return agencies;
    }
}
