using TeamCircle.Core.People;

namespace TeamCircle.Core.Family;

/// <summary>What a remark of a family is about.</summary>
public enum RemarkKind
{
    /// <summary>They will be away.</summary>
    Away,

    /// <summary>Something changed at home.</summary>
    Changed,

    /// <summary>A visit was not as they remember it.</summary>
    NotAsRemembered,

    /// <summary>A signal of the child's that they know.</summary>
    Signal,

    /// <summary>What they want said at the next meeting about the plan: it stands on the family's own page of its pack.</summary>
    ForMeeting,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>A remark before it is kept.</summary>
/// <param name="SaidBy">Who said it, as the family would be named: "her mother"; a name where it needs one.</param>
/// <param name="SaidOn">The day on which it was said.</param>
public sealed record RemarkSaid(RemarkKind? Kind, Guid? Visit, string? Words, string? SaidBy, NodaTime.LocalDate? SaidOn);

/// <summary>Who enters and answers what a family says. A remark changes no record: people read it and answer.</summary>
public static class RemarkRules
{
    public const int LongestWords = 2000, LongestSaidBy = 100;

    /// <summary>Any member of the team takes down what a family says.</summary>
    public static bool MayEnter(Caller caller, int learner) => caller.IsStaff && caller.OnTeam(learner);

    /// <summary>The case manager answers, and so does the provider of the visit that it is about.</summary>
    /// <param name="provider">Of that visit; null where it is about none.</param>
    public static bool MayAnswer(Caller caller, int learner, int? provider) =>
        MayEnter(caller, learner) && (caller.Manages(learner) || caller.PersonId == provider);

    /// <summary>All problems of what was typed.</summary>
    /// <param name="remark">What was typed.</param>
    /// <param name="today">The agency's date: nothing was said later.</param>
    public static IEnumerable<Problem> Check(RemarkSaid remark, NodaTime.LocalDate today)
    {
        if (remark.Kind is null)
            yield return new("Kind", "Choose what it is about.");
        if (remark is { Kind: RemarkKind.NotAsRemembered, Visit: null })
            yield return new("Visit", "Choose the visit.");
        foreach (var problem in CheckWords(remark.Words, "Words"))
            yield return problem;
        if (string.IsNullOrWhiteSpace(remark.SaidBy) || remark.SaidBy.Trim().Length > LongestSaidBy)
            yield return new("SaidBy", $"Say in under {LongestSaidBy} letters who said it.");
        if (remark.SaidOn is not { } day || day > today)
            yield return new("SaidOn", "Give the day on which it was said; it cannot be later than today.");
    }

    /// <summary>All problems of the word that the family reads.</summary>
    public static IEnumerable<Problem> CheckAnswer(string? answer) => CheckWords(answer, "Answer");

    private static IEnumerable<Problem> CheckWords(string? words, string field)
    {
        if (string.IsNullOrWhiteSpace(words) || words.Trim().Length > LongestWords)
            yield return new(field, $"Write it in under {LongestWords} letters.");
    }
}
