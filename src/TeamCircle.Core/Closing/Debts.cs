using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Closing;

/// <summary>What one window of a line still lacks when its reporting period is sealed (docs/rules.md, part 7).</summary>
/// <param name="Day">The day on which the window closed.</param>
/// <param name="MakeUp">What people decided to make up.</param>
/// <param name="Meeting">What is to come before a team meeting.</param>
/// <param name="Undecided">What nobody has decided about.</param>
/// <param name="By">The first day by which something of it is to be made up; null where nobody named one.</param>
/// <param name="PaidBefore">What make-ups dated after the period's end have paid already: given, and no part of what lacks.</param>
public sealed record OpenedDebt(
    LocalDate Day, DebtAmount MakeUp, DebtAmount Meeting, DebtAmount Undecided, LocalDate? By, DebtAmount PaidBefore)
{
    /// <summary>All that still lacks.</summary>
    public DebtAmount Amount => MakeUp.Plus(Meeting).Plus(Undecided);
}

/// <summary>Opens the debts of a line when its period is sealed.</summary>
/// <remarks>Reports what lacks as it was recorded; whether any of it has to be made up is an individual decision of people.</remarks>
public static class Debts
{
    /// <summary>One debt for each window that closes in the period and still lacks something, oldest first.</summary>
    /// <param name="working">The line in the period that is sealed, as of a day after its end.</param>
    /// <param name="makeUpBy">For each of <see cref="Working.Decisions"/>, in their order: by when; null where it names no day.</param>
    /// <remarks>Together they come to what the line lacks, and their undecided part to what is undecided. Where surplus carries
    /// within the period it takes away what was to be made up first, then what was to come before a meeting, then what is
    /// undecided; of each the oldest first (our choice: a surplus is what making up would have been).</remarks>
    public static IReadOnlyList<OpenedDebt> Of(Working working, IReadOnlyList<LocalDate?> makeUpBy)
    {
        var windows = working.Closing.Select(w => Lacking(working, w, makeUpBy)).ToList();
        if (working.At.Policies.On(working.At.Period.Last).Surplus == Surplus.CarryWithinPeriod)
        {
            var surplus = new DebtAmount(working.Closing.Sum(w => w.Minutes.Surplus), working.Closing.Sum(w => w.Sessions.Surplus));
            windows = Carried(windows, surplus);
        }
        return [.. windows.Where(w => !w.Amount.IsNothing)];
    }

    private static OpenedDebt Lacking(Working working, WindowWorking window, IReadOnlyList<LocalDate?> makeUpBy)
    {
        DebtAmount Decided(DecisionKind kind) => working.Decisions.Where(d => d.Window == window.Index && d.Decision.Kind == kind)
            .Aggregate(default(DebtAmount), (sum, d) => sum.Plus(new(d.Decision.Amount, d.Sessions)));
        var sessions = working.Promise.HasSessions ? window.Sessions : default;
        var lack = new DebtAmount(window.Minutes.Lack, sessions.Lack);
        var undecided = new DebtAmount(window.Minutes.Undecided, sessions.Undecided);
        var decided = lack.Less(undecided);
        // What make-ups paid was paid of what was to be made up.
        var makeUp = Decided(DecisionKind.MakeUp).Less(new(window.Minutes.Paid, sessions.Paid)).AtMost(decided);
        var by = Enumerable.Range(0, working.Decisions.Count)
            .Where(i => working.Decisions[i].Window == window.Index && working.Decisions[i].Decision.Kind == DecisionKind.MakeUp)
            .Select(i => makeUpBy[i]).Min();
        return new(Time.Day.Date(window.Window.Closes), makeUp, decided.Less(makeUp), undecided, by, PaidSince(working, window.Index));
    }

    /// <summary>What make-ups dated after the period's end paid to a window.</summary>
    private static DebtAmount PaidSince(Working working, int window) => working.GivenEntries
        .Where(e => e.Parts.Pays == window && e.Entry.Day > working.At.Period.Last)
        .Aggregate(default(DebtAmount), (sum, e) => sum.Plus(new(e.Parts.Paid, e.Parts.SessionOf == window ? 1 : 0)));

    private static List<OpenedDebt> Carried(List<OpenedDebt> windows, DebtAmount surplus)
    {
        windows = Take(windows, ref surplus, w => w.MakeUp, (w, left) => w with { MakeUp = left });
        windows = Take(windows, ref surplus, w => w.Meeting, (w, left) => w with { Meeting = left });
        return Take(windows, ref surplus, w => w.Undecided, (w, left) => w with { Undecided = left });
    }

    private static List<OpenedDebt> Take(
        List<OpenedDebt> windows, ref DebtAmount surplus, Func<OpenedDebt, DebtAmount> part, Func<OpenedDebt, DebtAmount, OpenedDebt> with)
    {
        var left = new List<OpenedDebt>(windows.Count);
        foreach (var window in windows)
        {
            var taken = part(window).AtMost(surplus);
            surplus = surplus.Less(taken);
            left.Add(with(window, part(window).Less(taken)));
        }
        return left;
    }
}
