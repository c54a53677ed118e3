using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Reports;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Progress;

namespace TeamCircle.Data.Reports;

/// <summary>Brings together what is on record about a learner's goals in a period: what a report says by itself.</summary>
internal static class ReportFigures
{
    /// <param name="period">The days of a reporting period, or of a plan year.</param>
    public static async Task<ReportFacts> ReadAsync(PortalDb db, Caller caller, int learner, DateInterval period, IReadOnlyList<int> goals, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        var asOf = LocalDate.Min(caller.Today, period.End);
        var rows = await db.Goals.AsNoTracking().Where(g => g.AgencyId == agency && g.LearnerId == learner && goals.Contains(g.Id)).ToDictionaryAsync(g => g.Id, stop);
        var probes = (await db.Probes.AsNoTracking()
            .Where(p => p.AgencyId == agency && p.LearnerId == learner && p.Live && p.OnDay <= asOf && goals.Contains(p.GoalId))
            .OrderBy(p => p.OnDay).ThenBy(p => p.RecordedAt).ThenBy(p => p.Id).ToListAsync(stop)).ToLookup(p => p.GoalId);
        var due = await DueAsync(db, agency, learner, period, asOf, stop);
        return new(asOf, [.. goals.Where(rows.ContainsKey).Select(id => Of(rows[id], [.. probes[id]], due.GetValueOrDefault(id), period.Start))]);
    }

    /// <summary>Only the kind of data that counts for the goal makes a level.</summary>
    private static GoalFacts Of(GoalRow goal, IReadOnlyList<ProbeRow> probes, PeriodBalance due, LocalDate start)
    {
        var points = probes.Select(p => p.Point).ToList();
        var counted = probes.Where(p => p.Kind == goal.Counts).ToList();
        var began = GoalStages.TeachingFrom(goal.TeachingFrom, points);
        var baseline = Baseline.Of(points.Where(p => p.Kind == goal.Counts), began, goal.Baseline is { } stated ? (stated, goal.PresentDay ?? goal.FromDay) : null);
        var mastered = goal.CriterionFor(goal.Target)?.Course(points, goal.UpkeepWeeks) is [.., var last] ? last : null;
        return new(goal.Id, goal.Area, goal.Statement, goal.Measure, goal.Better, due.DueSoFar, due.GivenSoFar, goal.Target, goal.TargetDay, CriterionOf(goal), baseline?.Level)
        {
            Before = Level.Of([.. counted.Where(p => p.OnDay < start).Select(Point)]),
            Now = Level.Of([.. counted.Where(p => p.OnDay >= start).Select(Point)]),
            MasteredOn = mastered is { ReopenedOn: null } ? mastered.On : null,
        };
    }

    private static CriterionFacts? CriterionOf(GoalTerms terms) => terms is { CriterionDays: { } days, CriterionOf: { } of }
        ? new(days, of, terms.CriterionFewest, terms.CriterionPeople, terms.CriterionPlaces) : null;

    private static LevelPoint Point(ProbeRow probe) => new(probe.OnDay, probe.Value, probe.Opportunities, Conditions(probe));

    private static string? Conditions(ProbeRow probe)
    {
        string[] said = [.. new[] { probe.State is { } state ? Words.Of(state) : null, probe.Position, probe.Side, probe.Place, probe.Conditions }.OfType<string>()];
        return said.Length == 0 ? null : string.Join(", ", said);
    }

    /// <summary>By goal: probes due and done in the windows of the period that are past, over all its owners.</summary>
    private static async Task<Dictionary<int, PeriodBalance>> DueAsync(PortalDb db, int agency, int learner, DateInterval period, LocalDate asOf, CancellationToken stop)
    {
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        var facts = await new ReadFacts(db, new(agency, [learner]), rules, Day.Of(asOf)).RunAsync(stop);
        var at = new Judging(DateRange.Of(period.Start, period.End), Day.Of(asOf), rules.Policies);
        var desk = new LedgerDesk();
        var sums = new Dictionary<int, PeriodBalance>();
        foreach (var index in facts.ByLearner.All)
        {
            if (facts.Lines[index] is { IsProbes: true } line)
                sums[line.Id] = sums.GetValueOrDefault(line.Id).Plus(Ledger.Judge(facts.Of(index, at), at, desk).Minutes);
        }
        return sums;
    }
}
