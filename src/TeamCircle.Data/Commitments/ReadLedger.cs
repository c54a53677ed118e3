using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads how one service, or the probes of one goal, was worked out: the audit's own rows and rules, with the working shown.</summary>
public sealed class ReadLedger(Portal portal)
{
    /// <summary>Null where the scope reaches no such service, or the agency has no such period.</summary>
    /// <param name="period">Null: the period that holds the day, else the last one before it.</param>
    public Task<LedgerPage?> ServiceAsync(Scope scope, int service, int? period, LocalDate asOf, CancellationToken stop = default) =>
        RunAsync(scope, db => db.Services.Where(s => s.AgencyId == scope.AgencyId && s.Id == service).Select(s => (int?)s.LearnerId),
            line => !line.IsProbes && line.Id == service, period, asOf, stop);

    /// <inheritdoc cref="ServiceAsync"/>
    public Task<LedgerPage?> GoalAsync(Scope scope, int goal, int? period, LocalDate asOf, CancellationToken stop = default) =>
        RunAsync(scope, db => db.Goals.Where(g => g.AgencyId == scope.AgencyId && g.Id == goal).Select(g => (int?)g.LearnerId),
            line => line.IsProbes && line.Id == goal, period, asOf, stop);

    private async Task<LedgerPage?> RunAsync(
        Scope scope, Func<PortalDb, IQueryable<int?>> learnerOf, Func<CommitmentLine, bool> isAsked, int? period, LocalDate asOf, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        if (await learnerOf(work.Db).SingleOrDefaultAsync(stop) is not { } learner)
            return null;
        var rules = await AgencyRules.ReadAsync(work.Db, scope.AgencyId, stop);
        if (Chosen(rules.Periods, period, asOf) is not { } row)
            return null;
        var read = new ReadFacts(work.Db, new(scope.AgencyId, [learner]), rules, Day.Of(asOf));
        var names = AuditNames.ReadBeside(read.Also, read.Rows);
        var facts = await read.RunAsync(stop);
        var at = new Judging(DateRange.Of(row.StartDay, row.EndDay), Day.Of(asOf), rules.Policies);
        var asked = Enumerable.Range(0, facts.Lines.Count).Where(i => isAsked(facts.Lines[i])).ToList();
        var details = new ReadLedgerFacts(work.Db, facts, at);
        var lines = new List<LedgerLine>();
        foreach (var line in asked)
            lines.Add(await details.RunAsync(line, stop));
        var first = facts.Lines[asked[0]];
        return new(rules, row, asOf, names, lines, rules.Periods)
        {
            Versions = first.IsProbes ? [] : await details.VersionsAsync(first, stop),
            Goal = first.IsProbes ? await details.GoalAsync(first, stop) : null,
        };
    }

    private static PeriodRow? Chosen(IReadOnlyList<PeriodRow> periods, int? period, LocalDate day) => period is { } id
        ? periods.SingleOrDefault(p => p.Id == id)
        : periods.LastOrDefault(p => p.StartDay <= day) ?? (periods.Count > 0 ? periods[0] : null);
}
