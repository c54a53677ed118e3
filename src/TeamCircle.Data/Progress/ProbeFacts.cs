using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Progress;

/// <summary>What the rules need to know about one goal when a probe of it is recorded.</summary>
internal sealed record ProbeFacts(
    GoalRow Goal, LocalDate Today, IReadOnlyList<CommitmentLine> Commitments, IReadOnlyList<GoalOwnerRow> Owners, IReadOnlyList<ProbeRow> Probes)
{
    /// <summary>Null where the agency has no such goal, or it is out of the scope's reach.</summary>
    public static async Task<ProbeFacts?> ReadAsync(PortalDb db, int agency, int goal, TimeProvider clock, CancellationToken stop)
    {
        var row = await db.Goals.AsNoTracking().SingleOrDefaultAsync(g => g.AgencyId == agency && g.Id == goal && g.Live, stop);
        if (row is null)
            return null;
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        var owners = await db.GoalOwners.AsNoTracking().Where(o => o.AgencyId == agency && o.GoalId == goal && o.Live).ToListAsync(stop);
        var probes = await db.Probes.AsNoTracking().Where(p => p.AgencyId == agency && p.GoalId == goal && p.Live).ToListAsync(stop);
        var lines = await ReadLines.FewAsync(db, new(agency, [row.LearnerId]), rules, stop);
        return new(row, AgencyClock.Today(clock, rules.Agency.TimeZone), [.. lines.Where(l => l.IsProbes && l.Id == goal)], owners, probes);
    }

    /// <param name="replaced">The probe in whose place this one comes; it does not stand in its way.</param>
    public ProbeSituation Situation(int provider, ProbeEntry entry, Guid? replaced)
    {
        var pays = entry.PaysOn is { } day ? Day.Of(day) : Day.None;
        var asked = Commitments.Where(c => c.OwnerId is null || c.OwnerId == provider).ToList();
        var windows = (asked.Find(c => c.Windows.Find(pays) >= 0) ?? asked.FirstOrDefault())?.Windows;
        var isOwner = Owners.Any(o => o.PersonId == provider && o.FromDay <= entry.OnDay && o.ToDay >= entry.OnDay);
        var probedThatDay = Probes.Any(p =>
            p.ProviderId == provider && p.OnDay == entry.OnDay && p.Kind == ProbeKind.Probe && p.Id != replaced);
        return new(Today, Goal.Measure, DateRange.Of(Goal.FromDay, Goal.ToDay), windows, isOwner, probedThatDay);
    }
}
