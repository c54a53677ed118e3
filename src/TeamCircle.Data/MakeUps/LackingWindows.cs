using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.MakeUps;

/// <summary>What each window of each service lacks as planned: windows of the reporting period that are past, or run today.</summary>
internal sealed class LackingWindows(CommitmentFacts facts, DateRange period, int today)
{
    /// <summary>The planner's grid in minutes.</summary>
    public const int Grid = 15;

    private const int LongestWithoutSessions = 60;
    private const int YearAndMore = 400;

    // Visits planned after the period pay as well: it is judged as if it went on, and only its own windows are looked at.
    private readonly Judging _at = new(period with { Last = period.Last + YearAndMore }, today, facts.Rules.Policies);

    /// <summary>The windows of one line that lack something, oldest first.</summary>
    public IEnumerable<(WindowWorking Window, int Minutes)> Of(int line)
    {
        var working = Ledger.Explain(facts.Of(line, _at), _at);
        var windows = working.Closing
            .Where(w => period.Holds(w.Window.Closes) && w.Window.Active.First <= today).ToList();
        var left = facts.Rules.Policies.On(period.Last).Surplus == Surplus.CarryWithinPeriod
            ? windows.Sum(w => w.Minutes.Due - w.Minutes.Given - w.Minutes.Planned)
            : int.MaxValue;
        foreach (var window in windows)
        {
            var lacks = Math.Min(left, Lack(working, window));
            if (lacks <= 0)
                continue;
            left -= lacks;
            yield return (window, lacks);
        }
    }

    /// <summary>Visits as long as the plan's sessions; where it promises none, of 30 to 60 minutes, or what lacks.</summary>
    public static Need Need(CommitmentLine line, WindowWorking window, int minutes, int provider, string place)
    {
        var length = Length(window) is { } session ? Up(session) : Math.Min(Up(minutes), LongestWithoutSessions);
        var rest = Up(minutes) % length;
        return new(
            $"{line.Id}", window.Window.Days.First, line.TakesLearnersTime ? $"{line.LearnerId}" : null, $"{provider}", place, minutes,
            rest > 0 ? rest : length, length);
    }

    /// <summary>Of a sealed window what is still open of what it brought forward.</summary>
    private static int Lack(Working working, WindowWorking window)
    {
        var debt = working.Debts.ToList().FindIndex(d => !d.IsFromFile && working.Windows.Find(d.Day) == window.Index);
        var lacks = debt < 0 ? new DebtAmount(window.Minutes.Short, window.Sessions.Short) : DebtAccount.StillToPlan(working, debt);
        return Math.Max(lacks.Minutes, Length(window) is { } session ? lacks.Sessions * session : 0);
    }

    /// <summary>The length of a session in minutes, rounded up; null where the plan promises no sessions.</summary>
    private static int? Length(WindowWorking window) => window.SessionLength is { } length && length.Over > 0
        ? (int)((length.Over + length.Under - 1) / length.Under)
        : null;

    private static int Up(int minutes) => (minutes + Grid - 1) / Grid * Grid;
}
