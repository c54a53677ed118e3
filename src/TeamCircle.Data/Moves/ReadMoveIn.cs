using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Moves;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>How a learner came with a plan from elsewhere, and what became of it.</summary>
/// <param name="In">Null where nothing is noted.</param>
/// <param name="Services">The learner's services, to choose from.</param>
public sealed record MoveInPage(
    int LearnerId, string Learner, MoveInShown? In, IReadOnlyList<ComparableShown> Comparable, IReadOnlyList<AskedShown> Asked, IReadOnlyList<(int Id, string Code, Discipline Discipline)> Services);

public sealed record MoveInShown(
    string FromWhere, bool OtherState, LocalDate FirstDay, MoveInStatus Status, LocalDate? DecidedOn, string? DecidedBy, string? DecidedWords, string EnteredBy, int Version);

/// <param name="Code">The comparable service of ours; null where none is given yet, with its discipline and days.</param>
public sealed record ComparableShown(int Id, string Words, int? Service, string? Code, Discipline? Discipline, LocalDate? From, LocalDate? To, int Version);

public sealed record AskedShown(int Id, string What, string OfWhom, LocalDate AskedOn, string AskedBy, LocalDate? ReceivedOn, int Version);

/// <summary>Reads how a learner came.</summary>
public sealed class ReadMoveIn(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<MoveInPage?> RunAsync(Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var agency = scope.AgencyId;
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var people = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var row = await db.MovesIn.SingleOrDefaultAsync(m => m.AgencyId == agency && m.LearnerId == learner, stop);
        var services = await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner).OrderBy(s => s.Position).ToListAsync(stop);
        var comparable = await db.MoveInServices.Where(s => s.AgencyId == agency && s.LearnerId == learner).OrderBy(s => s.Id).ToListAsync(stop);
        var asked = await db.AskedRecords.Where(a => a.AgencyId == agency && a.LearnerId == learner).OrderBy(a => a.AskedOn).ThenBy(a => a.Id).ToListAsync(stop);
        return new MoveInPage(
            learner, name,
            row is null ? null : new(
                row.FromWhere, row.OtherState, row.FirstDay, row.Status, row.DecidedOn, row.DecidedBy is { } by ? people.GetValueOrDefault(by) : null, row.DecidedWords,
                people.GetValueOrDefault(row.EnteredBy, "somebody"), row.Version),
            [.. comparable.Select(c => Shown(c, services.Find(s => s.Id == c.ServiceId)))],
            [.. asked.Select(a => new AskedShown(a.Id, a.What, a.OfWhom, a.AskedOn, people.GetValueOrDefault(a.AskedBy, "somebody"), a.ReceivedOn, a.Version))],
            [.. services.Select(s => (s.Id, s.Code, s.Discipline))]);
    }, stop);

    private static ComparableShown Shown(MoveInServiceRow row, ServiceRow? service) =>
        new(row.Id, row.Words, service?.Id, service?.Code, service?.Discipline, service?.FromDay, service?.ToDay, row.Version);
}
