using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>What people say they decided about something not given.</summary>
/// <param name="OnDay">A day of the window.</param>
/// <param name="Amount">Minutes, or probes.</param>
/// <param name="Sessions">Null: as many as the minutes stand for.</param>
/// <param name="TookPart">People of the agency who took part.</param>
/// <param name="ByDay">For a make-up: by when.</param>
/// <param name="Why">In their own words.</param>
public sealed record DecisionEntry(
    LocalDate OnDay, int Amount, int? Sessions, DecisionKind Kind, IReadOnlyList<int> TookPart,
    LocalDate DecidedOn, LocalDate? FamilyToldOn, LocalDate? ByDay, string? Why);

/// <summary>What stands when people decide.</summary>
/// <param name="Windows">Windows of the service or of the probe commitment; null where no window is named, as for what was brought forward.</param>
/// <param name="Lack">Minutes or probes that lack in the window, or that are open of what was brought forward.</param>
/// <param name="SessionsLack">Sessions that lack in it; null where none are promised.</param>
/// <param name="ExplainedLeft">Of the lack, what visits not given explain by the child, the family or nobody, less what was
/// already decided not owed.</param>
/// <param name="SessionsExplainedLeft">The same in sessions.</param>
public sealed record DecisionSituation(
    LocalDate Today, PromiseWindows? Windows, int Lack, int? SessionsLack, int ExplainedLeft, int SessionsExplainedLeft)
{
    /// <summary>The agency's directors; may be empty.</summary>
    public IReadOnlySet<int> Directors { get; init; } = ImmutableHashSet<int>.Empty;
}

/// <summary>A decision that can be stored, and what a person should know about it.</summary>
public sealed record DecisionVerdict(DecisionEntry Entry, IReadOnlyList<string> Notices);

/// <summary>A visit that gave less than planned, and why.</summary>
/// <param name="Missing">Planned minutes that were not given (1 for a probe that was not taken).</param>
public readonly record struct MissedVisit(int Missing, Reason? Reason);

/// <summary>Who may decide what about something not given (docs/rules.md, part 6).</summary>
/// <remarks>Nothing is decided by default, and no rule proposes an answer: it is an individual decision of people.</remarks>
public static class DecisionRules
{
    /// <summary>The verdict, or all problems at once.</summary>
    public static Outcome<DecisionVerdict> Check(DecisionEntry entry, DecisionSituation situation)
    {
        Problem[] problems = [.. Problems(entry, situation)];
        return problems.Length > 0
            ? Outcome<DecisionVerdict>.Refused(problems)
            : Outcome<DecisionVerdict>.Of(new(entry, [.. Notices(entry, situation)]));
    }

    /// <summary>What visits not given explain by the child, the family or nobody. A reason of the agency's, an unknown one or none explains nothing.</summary>
    public static int Explained(IEnumerable<MissedVisit> missed) =>
        missed.Where(m => m.Reason is { } reason && ReasonSides.Of(reason) is ReasonSide.ChildAndFamily or ReasonSide.Nobody)
            .Sum(m => Math.Max(0, m.Missing));

    /// <summary>Whether one person alone may not decide this: it would drop something that no reason of the child's, the family's or nobody's explains.</summary>
    public static bool NeedsSecondPerson(DecisionEntry entry, DecisionSituation situation) =>
        entry.Kind == DecisionKind.NotOwed &&
        (Math.Min(entry.Amount, situation.Lack) > situation.ExplainedLeft ||
         Math.Min(entry.Sessions ?? 0, situation.SessionsLack ?? 0) > situation.SessionsExplainedLeft);

    private static IEnumerable<Problem> Problems(DecisionEntry entry, DecisionSituation situation)
    {
        if (situation.Windows?.Find(Day.Of(entry.OnDay)) < 0)
            yield return new("OnDay", "Nothing was owed around that day, so there is nothing to decide.");
        if (entry.Amount < 0 || entry.Sessions is < 0 || (entry.Amount == 0 && entry.Sessions is null or 0))
            yield return new("Amount", "Say how much was decided about: one or more.");
        if (entry.DecidedOn > situation.Today)
            yield return new("DecidedOn", "That day is still to come.");
        if (entry.FamilyToldOn > situation.Today)
            yield return new("FamilyToldOn", "That day is still to come. Leave it empty until the family has been told.");
        if (string.IsNullOrWhiteSpace(entry.Why))
            yield return new("Why", "Say why, in the words of those who decided.");
        if (entry.Kind == DecisionKind.MakeUp && entry.ByDay is null)
            yield return new("ByDay", "Say by when it is to be made up.");
        else if (entry.ByDay < entry.DecidedOn)
            yield return new("ByDay", "That day comes before the decision.");
        if (Participants(entry, situation) is { } participants)
            yield return participants;
    }

    private static Problem? Participants(DecisionEntry entry, DecisionSituation situation)
    {
        var people = entry.TookPart.Distinct().ToList();
        if (people.Count == 0)
            return new("TookPart", "Name at least one person who took part.");
        if (!NeedsSecondPerson(entry, situation))
            return null;
        if (people.Count < 2)
            return new("TookPart", "What lies on the agency's side, or is explained by no visit, cannot be decided not owed by one person. Name the second.");
        return situation.Directors.Count > 0 && !people.Any(situation.Directors.Contains)
            ? new("TookPart", "What lies on the agency's side, or is explained by no visit, needs a director among those who decide it is not owed.")
            : null;
    }

    private static IEnumerable<string> Notices(DecisionEntry entry, DecisionSituation situation)
    {
        if (entry.Amount > situation.Lack)
            yield return string.Create(CultureInfo.InvariantCulture, $"Only {situation.Lack} lack here: a decision never counts for more than what lacks.");
        if (entry.Sessions > situation.SessionsLack)
            yield return string.Create(CultureInfo.InvariantCulture, $"Only {situation.SessionsLack} sessions lack here: a decision never counts for more than what lacks.");
        if (entry.FamilyToldOn is null)
            yield return "The family has not been told yet.";
    }
}
