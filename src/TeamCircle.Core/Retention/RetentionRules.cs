using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Retention;

/// <summary>Parts of a learner's record that can be destroyed, each by a rule of its own. What is in none of them stays.</summary>
public enum RecordKind
{
    /// <summary>Notes and reasons of visits. The attendance stays: day, times, minutes, who, what kind (34 CFR 300.624(b)).</summary>
    Notes,

    /// <summary>Practices with their trials, also those that were set aside and closed.</summary>
    Practice,

    Probes,

    /// <summary>Progress reports, with their signatures and what was filed about them.</summary>
    Reports,

    /// <summary>Photographs on a routine's card.</summary>
    Pictures,

    /// <summary>Summaries for the family, what the family told, practice at home.</summary>
    FamilyWords,
}

/// <summary>What the years of a rule are counted from.</summary>
public enum CountedFrom
{
    /// <summary>The learner's last day with the agency; then all of that kind is due, whenever it was made.</summary>
    LearnerLeft,

    /// <summary>The day that each entry is about.</summary>
    RecordMade,
}

/// <summary>How far a destruction has come.</summary>
public enum DestructionStage
{
    /// <summary>The family is still to be told (34 CFR 300.624(a)).</summary>
    Proposed,

    /// <summary>The family was told, and the days that they have are not over.</summary>
    Waits,

    /// <summary>A director may agree.</summary>
    Ready,

    /// <summary>A director agreed; a second person destroys.</summary>
    Agreed,
    Destroyed,
    Stopped,
}

/// <summary>
/// When parts of a record are due to be destroyed, and by whose hand. Nothing is by itself: a rule only proposes, the family is told first, one
/// director agrees and a second person does it (34 CFR 300.624; nothing says that an agency must destroy, but for a parent's own request).
/// </summary>
public static class RetentionRules
{
    public const int LeastYears = 1, MostYears = 100;

    /// <summary>Calendar days between telling the family and the first day on which a director may agree. The regulation names none; these are ours.</summary>
    public const int LeastNoticeDays = 30, UsualNoticeDays = 60, MostNoticeDays = 365;

    public const int LongestWords = 1000, LongestName = 100;

    /// <summary>The last day whose entries are due today; null where none are.</summary>
    /// <param name="left">The learner's last day with the agency; null while they are here.</param>
    public static LocalDate? DueUpTo(CountedFrom from, int years, LocalDate? left, LocalDate today) => from switch
    {
        CountedFrom.RecordMade => today.PlusYears(-years),
        _ when left is { } day && day.PlusYears(years) <= today => today,
        _ => null,
    };

    /// <summary>A director sets rules and agrees to a destruction.</summary>
    public static bool MayDecide(Caller caller) => caller.Is(Role.Director);

    /// <summary>The learner's case manager or a director: tells the family, notes what it asked, stops.</summary>
    public static bool MayKeep(Caller caller, int learner) => caller.IsStaff && (caller.Manages(learner) || caller.Is(Role.Director));

    /// <summary>Whoever may keep the record, but not the one who agreed: it takes two.</summary>
    public static bool MayDestroy(Caller caller, int learner, int? agreedBy) => MayKeep(caller, learner) && agreedBy is { } first && first != caller.PersonId;

    /// <param name="waitUntil">The first day on which a director may agree; null before the family was told.</param>
    public static DestructionStage StageOf(bool destroyed, bool stopped, bool agreed, LocalDate? waitUntil, LocalDate today) =>
        destroyed ? DestructionStage.Destroyed
        : stopped ? DestructionStage.Stopped
        : agreed ? DestructionStage.Agreed
        : waitUntil is not { } day ? DestructionStage.Proposed
        : today < day ? DestructionStage.Waits : DestructionStage.Ready;

    /// <summary>All problems of a rule.</summary>
    /// <param name="years">Null: this kind is kept.</param>
    public static IEnumerable<Problem> Check(RecordKind? kind, int? years, CountedFrom? from, int? noticeDays, string? reason)
    {
        if (kind is null)
            yield return new("Kind", "Choose which part of the record.");
        if (years is < LeastYears or > MostYears)
            yield return new("Years", $"Give {LeastYears} to {MostYears} years, or nothing where it is kept.");
        if (years is not null && from is null)
            yield return new("From", "Choose what the years are counted from.");
        if (noticeDays is not (>= LeastNoticeDays and <= MostNoticeDays))
            yield return new("NoticeDays", $"Give the family {LeastNoticeDays} to {MostNoticeDays} days.");
        if (Lacks(reason, LongestWords))
            yield return new("Reason", $"Say in under {LongestWords} letters on what the rule rests: a law of your state, a contract, a policy.");
    }

    /// <summary>All problems of a family's own request to destroy (34 CFR 300.624(b)).</summary>
    public static IEnumerable<Problem> CheckRequest(RecordKind? kind, string? askedBy, LocalDate? askedOn, LocalDate? upTo, LocalDate today)
    {
        if (kind is null)
            yield return new("Kind", "Choose which part of the record.");
        if (Lacks(askedBy, LongestName))
            yield return new("AskedBy", $"Say in under {LongestName} letters who asked.");
        if (askedOn is not { } asked || asked > today)
            yield return new("AskedOn", "Give the day on which it was asked; it cannot be later than today.");
        if (upTo is not { } last || last > today)
            yield return new("UpTo", "Give the last day whose entries are to be destroyed; it cannot be later than today.");
    }

    /// <summary>All problems of noting that a family was told.</summary>
    public static IEnumerable<Problem> CheckNotice(LocalDate? on, string? toWhom, string? way, LocalDate proposed, LocalDate today)
    {
        if (on is not { } day || day < proposed || day > today)
            yield return new("NoticeOn", "Give the day on which the family was told, between the proposal and today.");
        if (Lacks(toWhom, LongestName))
            yield return new("ToWhom", $"Say in under {LongestName} letters who was told.");
        if (Lacks(way, LongestName))
            yield return new("Way", $"Say in under {LongestName} letters how: by post, handed over, read out.");
    }

    /// <summary>The problem of the words with which a destruction is stopped; null where there is none.</summary>
    public static Problem? CheckStop(string? why) => Lacks(why, LongestWords) ? new("Why", $"Say in under {LongestWords} letters why it is kept.") : null;

    private static bool Lacks(string? text, int longest) => string.IsNullOrWhiteSpace(text) || text.Trim().Length > longest;
}
