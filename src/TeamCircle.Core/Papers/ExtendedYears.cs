using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Papers;

/// <summary>What the team decided about an extended school year.</summary>
public enum ExtendedYearAnswer
{
    Needed,
    NotNeeded,
}

/// <summary>The team's decision whether a learner needs services beyond the school year (34 CFR 300.106). The team decides, learner by learner; this records it.</summary>
public static class ExtendedYears
{
    public const int LongestReason = 4000, LongestPeople = 400;

    public static bool MayKeep(Caller caller, int learner) => caller.IsStaff && caller.Manages(learner);

    /// <summary>All problems of a decision that is asked for.</summary>
    /// <param name="decideBy">The last day on which it is in time; later than the summer it cannot be, so a year ahead at most.</param>
    public static IEnumerable<Problem> CheckAsk(LocalDate? decideBy, LocalDate today)
    {
        if (decideBy is not { } day || day < today.PlusYears(-1) || day > today.PlusYears(1))
            yield return new("DecideBy", "Give the last day on which the decision is in time, within a year.");
    }

    /// <summary>All problems of a decision.</summary>
    /// <param name="reason">What the team weighed, in its own words.</param>
    /// <param name="tookPart">Who took part, the parents among them, in words.</param>
    /// <param name="familyToldOn">When the family was told; null where it was not yet.</param>
    public static IEnumerable<Problem> CheckDecision(
        ExtendedYearAnswer? answer, LocalDate? decidedOn, string? reason, string? tookPart, LocalDate? familyToldOn, LocalDate today)
    {
        if (answer is null)
            yield return new("Answer", "Choose what the team decided.");
        if (decidedOn is not { } day || day > today || day < today.PlusYears(-1))
            yield return new("DecidedOn", "Give the day of the decision; it cannot be later than today.");
        if (string.IsNullOrWhiteSpace(reason) || reason.Trim().Length > LongestReason)
            yield return new("Reason", "Write what the team weighed, and why it decided so.");
        if (string.IsNullOrWhiteSpace(tookPart) || tookPart.Trim().Length > LongestPeople)
            yield return new("TookPart", $"Name in under {LongestPeople} letters who took part.");
        if (familyToldOn < decidedOn || familyToldOn > today)
            yield return new("FamilyToldOn", "Give the day on which the family was told, between the decision and today.");
    }
}
