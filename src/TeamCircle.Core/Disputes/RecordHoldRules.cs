using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Disputes;

/// <summary>
/// Who may set and end a hold on records, and what must be said. While it stands, what was recorded of one learner between two days is neither
/// corrected, taken back nor moved, and nothing of it is destroyed; what was never entered may still be entered, and is marked.
/// </summary>
public static class RecordHoldRules
{
    public const int LongestReason = 1000;

    /// <summary>The learner's case manager, or a director.</summary>
    public static bool MaySet(Caller caller, int learner) => (caller.IsStaff && caller.Manages(learner)) || caller.Is(Role.Director);

    /// <summary>Whoever set it, or a director.</summary>
    /// <param name="setBy">The person who set it.</param>
    public static bool MayEnd(Caller caller, int setBy) => caller.IsStaff && (caller.PersonId == setBy || caller.Is(Role.Director));

    /// <summary>All problems at once; none where the hold can be set.</summary>
    /// <param name="from">The first day whose records are kept.</param>
    /// <param name="to">The last one, at most today: visits to come are planned as always.</param>
    /// <param name="today">The agency's date.</param>
    public static IEnumerable<Problem> Check(LocalDate? from, LocalDate? to, string? reason, LocalDate today)
    {
        if (from is null)
            yield return new("FromDay", "Give the first day whose records are to be kept as they are.");
        if (to is null)
            yield return new("ToDay", "Give the last day whose records are to be kept as they are.");
        else if (to < from)
            yield return new("ToDay", "The last day comes before the first.");
        else if (to > today)
            yield return new("ToDay", "Give today at the latest: a hold keeps what was recorded, and visits to come are planned as always.");
        if (Lacks(reason))
            yield return new("Reason", $"Say in under {LongestReason} letters why, so that whoever meets the hold understands it.");
    }

    /// <summary>The problem of the words with which a hold ends; null where there is none.</summary>
    public static Problem? CheckEnd(string? word) =>
        Lacks(word) ? new("Word", $"Say in under {LongestReason} letters why the records need not be kept any longer.") : null;

    /// <summary>Whether an entry was made while a hold kept its day: both of its days, and the moment at which it was set, belong to it.</summary>
    /// <param name="day">The day that the entry is about.</param>
    /// <param name="entered">When it was entered.</param>
    public static bool WasUnder(RecordHold hold, LocalDate day, Instant entered) =>
        hold.From <= day && day <= hold.To && hold.SetAt <= entered && (hold.EndedAt is null || entered < hold.EndedAt);

    private static bool Lacks(string? text) => string.IsNullOrWhiteSpace(text) || text.Trim().Length > LongestReason;
}

/// <summary>The days that a hold keeps, and how long it stood.</summary>
/// <param name="EndedAt">Null while it stands.</param>
public sealed record RecordHold(LocalDate From, LocalDate To, Instant SetAt, Instant? EndedAt);
