using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Where each service and probe commitment stands in the reporting period of a day, window by window.</summary>
/// <param name="Period">The period that holds the day, else the last one before it, else the first; null where there is none.</param>
public sealed record Standings(PeriodRow? Period, LocalDate AsOf, IReadOnlyList<StandingLine> Lines)
{
    public IEnumerable<StandingLine> Of(int learner) => Lines.Where(l => l.Line.LearnerId == learner);

    /// <summary>As far as somebody sees minutes and statuses: of the learners on whose team they are in full, and as an assistant where they are named.</summary>
    public Standings SeenBy(Core.People.Caller caller) => this with
    {
        Lines = [.. Lines.Where(l => caller.IsMember(l.Line.LearnerId)
            || (caller.Stands(l.Line.LearnerId, Core.People.Relation.Assistant) && l.Line.IsNamed(caller.PersonId, Day.Of(AsOf))))],
    };

    public StandingLine? OfService(int service) => Lines.FirstOrDefault(l => !l.Line.IsProbes && l.Line.Id == service);

    public IEnumerable<StandingLine> OfGoal(int goal) => Lines.Where(l => l.Line.IsProbes && l.Line.Id == goal);
}

/// <param name="IsUnassigned">Whether nobody is named for it on the day, though it runs then.</param>
public sealed record StandingLine(CommitmentLine Line, Working Working, bool IsUnassigned)
{
    public Balance Balance => Working.Balance;

    /// <summary>The days without service, where nobody is named for it on the day; null otherwise, and for probes.</summary>
    public DaysWithout? Without { get; init; }

    /// <summary>The windows that the period is about, oldest first: those that close in it, and the one open at its end.</summary>
    public IEnumerable<WindowWorking> Windows => Working.Closing.Concat(Working.Open.Select(o => o.Window)).OrderBy(w => w.Window.Days.First);

    /// <summary>The window that runs on a day; null where there is none or it has no school day.</summary>
    public WindowWorking? WindowOn(LocalDate day) => Windows.FirstOrDefault(w => w.Window.Days.Holds(Day.Of(day)));
}

/// <summary>Reads <see cref="Standings"/> for the learners that a person may see: for pages of few learners, not for a whole agency.</summary>
public sealed class ReadStandingLines(Portal portal)
{
    /// <param name="learner">One of the scope's learners only; null for all of them.</param>
    public async Task<Standings> RunAsync(Scope scope, LocalDate asOf, int? learner = null, CancellationToken stop = default)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        var rules = await AgencyRules.ReadAsync(work.Db, scope.AgencyId, stop);
        if (PeriodOf(rules.Periods, asOf) is not { } period)
            return new Standings(null, asOf, []);
        var rows = learner is { } one ? new RowFilter(scope.AgencyId, [one]) : RowFilter.Of(scope);
        var facts = await new ReadFacts(work.Db, rows, rules, Day.Of(asOf)).RunAsync(stop);
        await work.CommitAsync(stop);
        var at = new Judging(DateRange.Of(period.StartDay, period.EndDay), Day.Of(asOf), rules.Policies);
        return new Standings(period, asOf, [.. facts.ByLearner.All.Select(line => Judge(facts, line, at)).OfType<StandingLine>()]);
    }

    /// <summary>Null for a line that ended before the period or begins after it.</summary>
    private static StandingLine? Judge(CommitmentFacts facts, int index, Judging at)
    {
        var line = facts.Lines[index];
        if (!line.Promise.Dates.Touches(at.Period))
            return null;
        var working = Ledger.Explain(facts.Of(index, at), at);
        var isUnassigned = line.Promise.Dates.Holds(at.AsOf) && !line.IsAssigned(at.AsOf);
        return new StandingLine(line, working, isUnassigned) { Without = isUnassigned ? DaysWithout.Of(facts, index, at.AsOf) : null };
    }

    private static PeriodRow? PeriodOf(IReadOnlyList<PeriodRow> periods, LocalDate day) =>
        periods.LastOrDefault(p => p.StartDay <= day) ?? (periods.Count > 0 ? periods[0] : null);
}
