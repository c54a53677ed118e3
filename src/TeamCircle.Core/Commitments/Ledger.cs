using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Says where a service line or a probe commitment stands in a reporting period (docs/rules.md, parts 3 to 8).</summary>
/// <remarks>
/// <para>The same method serves the page that shows how one line was worked out and the audit of a whole agency: the first
/// hands in a <see cref="Working"/>, which is filled; the second does not, and then judging a line allocates nothing.</para>
/// <para>Pure: the answer depends on what is handed in alone. It reports what was recorded and decides nothing about what a
/// learner is entitled to.</para>
/// <example>
/// <code>
/// var catalog = new WindowCatalog(calendar, periods);
/// var desk = new LedgerDesk();
/// foreach (var line in lines)
/// {
///     var facts = new LineFacts { Promise = line.Promise, Windows = catalog.Of(line.Promise, line.Plan), Given = line.Given };
///     var balance = Ledger.Judge(facts, new Judging(period, asOf, policies), desk);
/// }
/// </code>
/// </example>
/// </remarks>
public static class Ledger
{
    /// <summary>Judges one line in one period as of one day.</summary>
    /// <param name="line">The promise and what was given, planned and decided.</param>
    /// <param name="at">The period, the as-of day and the policies.</param>
    /// <param name="desk">Working space, used again for the next line.</param>
    /// <param name="working">Filled with how it was worked out, where one is handed in.</param>
    /// <param name="named">For one provider's share: the days on which they were the named person. Exactly the windows that close
    /// on these days are judged, and an open window only where they were named on the last day that counts for it. What was given
    /// counts as for the whole line. Empty: the line itself, whoever gave it.</param>
    /// <remarks>A promise in a wording that cannot be judged owes nothing and has the status <see cref="Status.CannotJudge"/>.</remarks>
    public static Balance Judge(
        in LineFacts line, in Judging at, LedgerDesk desk, Working? working = null, ReadOnlySpan<DateRange> named = default)
    {
        working?.Begin(line, at);
        var period = new PeriodWindows(line.Windows, at, named);
        var posting = new Posting(line, at, desk, period, working);
        int? givenThen = null;
        if (period.Open >= 0 && at.OpenAsOf < at.AsOf)
        {
            posting.Given(at.OpenAsOf);
            givenThen = posting.Tally(period.Open).Minutes.Given;
        }
        posting.Given(at.AsOf);
        posting.Decisions();
        posting.Planned();
        var open = period.Open < 0 ? default : Open(line, at, ref posting, period.Open, givenThen, working);
        return Sum(line, at, ref posting, period, open, working, desk);
    }

    /// <summary>Judges one line and says how it was worked out.</summary>
    public static Working Explain(in LineFacts line, in Judging at, ReadOnlySpan<DateRange> named = default)
    {
        var working = new Working();
        working.Balance = Judge(line, at, new LedgerDesk(), working, named);
        return working;
    }

    /// <summary>The window that is open at the period's end: its pace, against what was given in it by then.</summary>
    private static OpenBalance Open(
        in LineFacts line, in Judging at, ref Posting posting, int window, int? givenThen, Working? working)
    {
        ref var tally = ref posting.Tally(window);
        var policy = at.Policies.On(line.Windows.All[window].Closes);
        var whole = OwedRule.WholeUpTo(line.Promise, line.Windows, window, at.PaceUpTo, policy);
        var decided = Math.Min(tally.DecidedForPace, tally.Minutes.NotOwed);
        var pace = Math.Max(0, whole.Rounded - decided);
        var given = givenThen ?? tally.Minutes.Given;
        working?.AddOpen(line, at, window, tally, new(at.PaceUpTo, whole, decided, pace, given));
        return new(1, tally.Minutes.Owed, pace, given, given >= pace);
    }

    private static Balance Sum(
        in LineFacts line, in Judging at, ref Posting posting, in PeriodWindows period, in OpenBalance open, Working? working, LedgerDesk desk)
    {
        var policy = at.Policies.On(at.Period.Last);
        PeriodSums minuteSums = default, sessionSums = default;
        var (spaceNeeded, lastLength) = (Ratio.Zero, Ratio.Zero);
        var undecidedSince = Day.None;
        for (var i = period.First; i < period.End; i++)
        {
            if (!period.Closes(i))
                continue;
            ref var tally = ref posting.Tally(i);
            var isPast = line.Windows.All[i].Closes < at.AsOf;
            minuteSums.Add(tally.Minutes, isPast);
            sessionSums.Add(tally.Sessions, isPast);
            if (isPast && undecidedSince == Day.None && tally.Minutes.Undecided + tally.Sessions.Undecided > 0)
                undecidedSince = line.Windows.All[i].Closes;
            if (tally.Sessions.Short > 0)
                spaceNeeded = spaceNeeded.Plus(tally.Length.Times(tally.Sessions.Short));
            lastLength = tally.Length;
            working?.AddClosing(line, at, i, tally);
        }
        var minutes = minuteSums.Total(policy.Surplus);
        var sessions = line.Promise.HasSessions ? sessionSums.Total(policy.Surplus) : default;
        if (policy.Surplus == Surplus.CarryWithinPeriod)
            spaceNeeded = lastLength.Times(sessions.ShortAsPlanned);
        var space = Space.Left(line, at);
        var status = Judge(line, at, policy, minutes, sessions, spaceNeeded, space, open);
        working?.AddElsewhere(line, at, ref posting);
        posting.PlannedAfterPeriod();
        var toCheck = new ToCheck(posting.OutsideEntries, posting.NamesNoWindow, posting.IgnoredDecisions, posting.NeverLogged,
            line.Windows.ClosingInNoPeriod.Count, line.Windows.YearBeyondCalendar);
        return new(minutes, sessions, line.Promise.HasSessions, open, posting.PlannedLater, space, posting.MadeUpSince,
            posting.Outside, minutes.Undecided + sessions.Undecided > 0 ? undecidedSince : Day.None, status.Status, status.Worse, toCheck)
        {
            BroughtForward = BroughtForward(line, at, desk),
        };
    }

    /// <summary>What periods before this one brought forward; what this period itself left open stands in its own figures.</summary>
    private static DebtSums BroughtForward(in LineFacts line, in Judging at, LedgerDesk desk)
    {
        var sums = default(DebtSums);
        for (var i = 0; i < line.Debts.Length; i++)
        {
            if (line.Debts[i].Since < at.Period.First)
                sums = sums.Plus(line.Debts[i].Sums(desk.Debt(i).Paid));
        }
        return sums;
    }

    private static (Status Status, WorseUnit Worse) Judge(
        in LineFacts line, in Judging at, Policy policy, in PeriodBalance minutes, in PeriodBalance sessions,
        Ratio sessionSpace, int? space, in OpenBalance open)
    {
        if (line.Promise.Wording is not null)
            return (Status.CannotJudge, WorseUnit.Alike);
        var isOver = at.AsOf > at.Period.Last;
        var byMinutes = StatusSteps.Of(minutes, isOver, policy.TolerancePercent, new(minutes.ShortAsPlanned, 1), space);
        Status? bySessions = line.Promise.HasSessions ? StatusSteps.Of(sessions, isOver, 0, sessionSpace, space) : null;
        return StatusSteps.Line(byMinutes, bySessions, minutes.Owed, open);
    }
}
