using TeamCircle.Core.People;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>What waits for one person among the standings of their learners.</summary>
/// <param name="Closing">Services whose window closes this week and lacks something: those for which they are named, and for a case manager those with nobody assigned.</param>
/// <param name="Probes">Probe commitments of theirs whose window runs now and lacks probes.</param>
/// <param name="Undecided">For a case manager: what was not given and nobody decided about.</param>
public sealed record Waiting(IReadOnlyList<WaitingWindow> Closing, IReadOnlyList<WaitingWindow> Probes, IReadOnlyList<StandingLine> Undecided)
{
    /// <param name="standings">As of today.</param>
    /// <param name="caller">Who asks.</param>
    /// <param name="weekEnd">The last day of the agency's week.</param>
    public static Waiting For(Caller caller, Standings standings, LocalDate weekEnd)
    {
        var (today, last) = (Day.Of(standings.AsOf), Day.Of(weekEnd));
        var own = standings.Lines.Where(l => l.Line.IsNamed(caller.PersonId, today) || (l.IsUnassigned && caller.Manages(l.Line.LearnerId)))
            .Select(l => l.WindowOn(standings.AsOf) is { } w ? new WaitingWindow(l, w) : null).OfType<WaitingWindow>()
            .Where(w => w.Window.Minutes.Lack > 0 && w.Window.Window.Closes >= today)
            .OrderBy(w => w.Window.Window.Closes).ToList();
        return new Waiting(
            [.. own.Where(w => !w.Standing.Line.IsProbes && w.Window.Window.Closes <= last)],
            [.. own.Where(w => w.Standing.Line.IsProbes)],
            [.. standings.Lines.Where(l => l.Balance.Minutes.Undecided > 0 && caller.Manages(l.Line.LearnerId))])
        {
            BroughtForward = [.. standings.Lines.Where(l => !l.Balance.BroughtForward.Open.IsNothing
                && (l.Line.IsNamed(caller.PersonId, today) || caller.Manages(l.Line.LearnerId)))],
        };
    }

    /// <summary>Services and goals of theirs, and for a case manager all, of which something is open that an earlier period brought forward.</summary>
    public IReadOnlyList<StandingLine> BroughtForward { get; init; } = [];

    public bool IsEmpty => Closing.Count + Probes.Count + Undecided.Count + BroughtForward.Count == 0;
}

public sealed record WaitingWindow(StandingLine Standing, Core.Commitments.WindowWorking Window);
