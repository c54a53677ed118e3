using NodaTime;
using TeamCircle.Data.History;
using TeamCircle.Data.Jobs;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Jobs;

/// <summary>
/// Seals the trail of changes every four seconds, so that what is changed lies in a block within five. Several portals may do so on one database: each block is made once. Whatever goes wrong,
/// the next turn seals what this one left.
/// </summary>
internal sealed class SealingJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<SealingJob> log)
    : LeasedJob(Job.Sealing, TimeSpan.FromSeconds(4), scopes, clock, log)
{
    /// <summary>A record every four seconds would be longer than what it is about.</summary>
    private static readonly Duration Noted = Duration.FromHours(1);
    private readonly Dictionary<int, (Instant Since, int Changes)> _sealed = [];

    protected override async Task<string?> WorkAsync(IServiceProvider services, JobAgency agency, CancellationToken stop)
    {
        var changes = await services.GetRequiredService<SealChanges>().RunAsync(agency.Id, stop);
        var (since, before) = _sealed.TryGetValue(agency.Id, out var so) ? so : (Now, 0);
        _sealed[agency.Id] = (since, before + changes);
        if (before + changes == 0 || Now - since < Noted)
            return null;
        _sealed[agency.Id] = (Now, 0);
        return $"{Say.Count(before + changes, "change")} sealed within the hour.";
    }
}
