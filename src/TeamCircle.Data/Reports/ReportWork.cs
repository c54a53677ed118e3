using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Reports;

/// <summary>One report as it stands inside an open transaction, with what its signatures stand for.</summary>
internal sealed class ReportWork
{
    private ReportWork(ReportRow report, PeriodRow period, IReadOnlyList<ReportGoalRow> goals, ILookup<int, int> owners, IReadOnlyList<ReportSignatureRow> signatures) =>
        (Report, Period, Goals, Owners, Signatures) = (report, period, goals, owners, signatures);

    public ReportRow Report { get; }

    public PeriodRow Period { get; }

    /// <summary>In the plan's order.</summary>
    public IReadOnlyList<ReportGoalRow> Goals { get; }

    /// <summary>By goal: who owns it on some day of the period.</summary>
    public ILookup<int, int> Owners { get; }

    public IReadOnlyList<ReportSignatureRow> Signatures { get; }

    public ReportContent Content => new(Report.Edition, Report.Facts is { } facts ? ReportFacts.Read(facts) : null, [.. Goals.Select(g => g.Said)]);

    public ReportGoalRow? Goal(int goal) => Goals.FirstOrDefault(g => g.GoalId == goal);

    /// <summary>The owners of the report's goals, with whether their signature stands for what is there now.</summary>
    public IReadOnlyList<ReportOwner> People => [.. Goals.SelectMany(g => Owners[g.GoalId].Select(person => (person, g.GoalId))).GroupBy(x => x.person, x => x.GoalId)
        .Select(g => new ReportOwner(g.Key, [.. g], Signatures.Any(s => s.PersonId == g.Key && s.Hash == Report.Hash)))];

    /// <summary>Null where the scope reaches no such report. Editions that were replaced are found too.</summary>
    public static async Task<ReportWork?> FindAsync(PortalDb db, Caller caller, int id, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (await db.Reports.IgnoreQueryFilters().SingleOrDefaultAsync(r => r.AgencyId == agency && r.Id == id, stop) is not { } report)
            return null;
        var period = await db.Periods.IgnoreQueryFilters().SingleAsync(p => p.AgencyId == agency && p.Id == report.PeriodId, stop);
        var goals = await db.ReportGoals.Where(g => g.AgencyId == agency && g.LearnerId == report.LearnerId && g.ReportId == id).OrderBy(g => g.Position).ToListAsync(stop);
        var signatures = await db.ReportSignatures.Where(s => s.AgencyId == agency && s.LearnerId == report.LearnerId && s.ReportId == id).OrderBy(s => s.SignedAt).ToListAsync(stop);
        return new(report, period, goals, await OwnersAsync(db, agency, report.LearnerId, period, stop), signatures);
    }

    /// <summary>By goal: who owns it on some day of a period, the first named first.</summary>
    public static async Task<ILookup<int, int>> OwnersAsync(PortalDb db, int agency, int learner, PeriodRow period, CancellationToken stop) =>
        (await db.GoalOwners.Where(o => o.AgencyId == agency && o.LearnerId == learner && o.FromDay <= period.EndDay && o.ToDay >= period.StartDay)
            .OrderBy(o => o.Position).ThenBy(o => o.FromDay).Select(o => new { o.GoalId, o.PersonId }).ToListAsync(stop))
        .Distinct().ToLookup(o => o.GoalId, o => o.PersonId);

    /// <summary>After every change: what stands from now on is another thing than what was signed before.</summary>
    public void Hashed() => Report.Hash = Content.Hash();
}
