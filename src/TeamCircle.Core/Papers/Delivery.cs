using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Papers;

/// <summary>A paper that parents are given.</summary>
public enum PaperKind
{
    Report,
    Statement,
    MeetingPack,
    Evaluation,

    /// <summary>Written notice before the agency changes, or refuses to change, something (34 CFR 300.503): that it was given, not its text.</summary>
    PriorNotice,
}

/// <summary>How a paper went to whom it is for.</summary>
public enum DeliveryWay
{
    Handed,
    Post,
    Mail,

    /// <summary>It can be read in the portal.</summary>
    Portal,
}

/// <summary>One time that a paper was sent.</summary>
/// <param name="ReturnedOn">When it came back, or was known not to have arrived; null where it did not.</param>
public sealed record Sending(LocalDate SentOn, LocalDate? ReturnedOn);

/// <summary>Where a paper stands.</summary>
public enum DeliveryState
{
    /// <summary>It is not sent, and need not be yet.</summary>
    NotYet,

    /// <summary>It is not sent, and the day has passed.</summary>
    Overdue,
    Sent,

    /// <summary>Sent after its day.</summary>
    SentLate,

    /// <summary>The last sending came back: it has to be sent again.</summary>
    Returned,
}

/// <summary>Proof that a paper went out: due, sent when, how, in which language, by whom, returned, sent again.</summary>
public static class Deliveries
{
    public const int LongestWords = 200, LongestLanguage = 60, LongestReason = 400;

    /// <summary>The case manager says what was sent: they answer for what the family has.</summary>
    public static bool MayKeep(Caller caller, int learner) => caller.IsStaff && caller.Manages(learner);

    /// <summary>Where a paper stands on a day. What came back does not count as sent, also where it went out in time.</summary>
    /// <param name="due">The last day on which it is in time; null where it has none.</param>
    /// <param name="sendings">In any order; of two on one day the one that did not come back counts.</param>
    public static DeliveryState StateOf(LocalDate? due, IReadOnlyCollection<Sending> sendings, LocalDate today)
    {
        if (sendings.Count == 0)
            return due < today ? DeliveryState.Overdue : DeliveryState.NotYet;
        var arrived = sendings.Where(s => s.ReturnedOn is null).Select(s => (LocalDate?)s.SentOn).Min();
        return arrived is null ? DeliveryState.Returned : arrived > due ? DeliveryState.SentLate : DeliveryState.Sent;
    }

    /// <summary>All problems of a sending.</summary>
    /// <param name="about">What the paper is about, for a notice or an evaluation: their text is not kept here.</param>
    public static IEnumerable<Problem> Check(PaperKind? paper, string? about, LocalDate? sentOn, DeliveryWay? way, string? language, string? toWhom, LocalDate today)
    {
        if (paper is null)
            yield return new("Paper", "Choose the paper.");
        if (paper is PaperKind.Evaluation or PaperKind.PriorNotice && (string.IsNullOrWhiteSpace(about) || about.Trim().Length > LongestWords))
            yield return new("About", $"Say in under {LongestWords} letters what it is about.");
        if (sentOn is not { } day || day > today)
            yield return new("SentOn", "Give the day on which it went out; it cannot be later than today.");
        if (way is null)
            yield return new("Way", "Choose how it went.");
        if (string.IsNullOrWhiteSpace(language) || language.Trim().Length > LongestLanguage)
            yield return new("Language", "Say in which language it was written or read out.");
        if (string.IsNullOrWhiteSpace(toWhom) || toWhom.Trim().Length > LongestWords)
            yield return new("ToWhom", "Say to whom it went.");
    }

    /// <summary>All problems of a paper's coming back.</summary>
    public static IEnumerable<Problem> CheckReturn(LocalDate sentOn, LocalDate? returnedOn, string? word, LocalDate today)
    {
        if (returnedOn is not { } day || day < sentOn || day > today)
            yield return new("ReturnedOn", "Give the day on which it came back, between its sending and today.");
        if (string.IsNullOrWhiteSpace(word) || word.Trim().Length > LongestReason)
            yield return new("ReturnedWord", $"Say in under {LongestReason} letters what happened.");
    }
}
