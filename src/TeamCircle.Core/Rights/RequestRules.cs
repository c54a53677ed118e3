using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Rights;

/// <summary>What a parent asks about a record.</summary>
public enum RequestKind
{
    /// <summary>To inspect and review it (34 CFR 300.613).</summary>
    See,

    /// <summary>To amend it (34 CFR 300.618).</summary>
    Amend,
}

/// <summary>How a request was answered.</summary>
public enum RequestAnswer
{
    Shown,
    Copied,
    Amended,

    /// <summary>The record stays as it is; the parent is told of the right to a hearing.</summary>
    Refused,
}

/// <summary>What a parent's statement stands beside. A session is reached through its visit, so that a correction does not lose the statement.</summary>
public enum StatementAbout
{
    Record,
    Visit,
    Probe,
    Report,
}

/// <summary>Requests to see or to amend a record, their outer date and what comes of them (34 CFR 300.613, 300.618 to 300.621).</summary>
public static class RequestRules
{
    /// <summary>Calendar days, the day of the request not counted: in no case more (34 CFR 300.613(a)). It is written for seeing a record; for amending
    /// one the regulation asks for a reasonable time (300.618(b)), and this is ours.</summary>
    public const int OuterDays = 45;

    /// <summary>Days before the outer date from which the case manager is warned: our choice.</summary>
    public const int WarningDays = 10;

    public const int LongestWords = 4000, LongestName = 100;

    /// <summary>The last day on which it may be answered.</summary>
    public static LocalDate OuterDate(LocalDate received) => received.PlusDays(OuterDays);

    /// <summary>Whether the outer date is near, or past.</summary>
    public static bool IsNear(LocalDate received, LocalDate today) => today.PlusDays(WarningDays) >= OuterDate(received);

    /// <summary>The answers that a request can have.</summary>
    public static IReadOnlyList<RequestAnswer> Answers(RequestKind kind) => kind == RequestKind.See
        ? [RequestAnswer.Shown, RequestAnswer.Copied] : [RequestAnswer.Amended, RequestAnswer.Refused];

    /// <summary>The case manager keeps the requests of a learner.</summary>
    public static bool MayKeep(Caller caller, int learner) => caller.IsStaff && caller.Manages(learner);

    /// <summary>All problems of a request.</summary>
    public static IEnumerable<Problem> CheckRequest(RequestKind? kind, string? askedBy, string? words, LocalDate? receivedOn, LocalDate today)
    {
        if (kind is null)
            yield return new("Kind", "Choose what is asked for.");
        foreach (var problem in CheckName("AskedBy", askedBy, "asked").Concat(CheckWords("Words", words)))
            yield return problem;
        if (receivedOn is not { } day || day > today)
            yield return new("ReceivedOn", "Give the day on which it was received; it cannot be later than today.");
    }

    /// <summary>All problems of an answer.</summary>
    /// <param name="noticeOn">When the parent was told of the right to a hearing; needed for a refusal (34 CFR 300.618(c)).</param>
    public static IEnumerable<Problem> CheckAnswer(RequestKind kind, LocalDate receivedOn, RequestAnswer? answer, string? words, LocalDate? answeredOn, LocalDate? noticeOn, LocalDate today)
    {
        if (answer is not { } given || !Answers(kind).Contains(given))
            yield return new("Answer", "Choose how it was answered.");
        foreach (var problem in CheckWords("Words", words))
            yield return problem;
        if (answeredOn is not { } day || day < receivedOn || day > today)
            yield return new("AnsweredOn", "Give the day of the answer, between the request and today.");
        if (answer == RequestAnswer.Refused && noticeOn is null)
            yield return new("NoticeOn", "A refusal comes with the notice of the right to a hearing: give its day.");
        if (noticeOn < receivedOn || noticeOn > today)
            yield return new("NoticeOn", "Give the day of the notice, between the request and today.");
    }

    /// <summary>All problems of what is noted about a hearing.</summary>
    public static IEnumerable<Problem> CheckHearing(LocalDate answeredOn, LocalDate? askedOn, LocalDate? endedOn, string? outcome, LocalDate today)
    {
        if (askedOn is not { } asked || asked < answeredOn || asked > today)
            yield return new("HearingAskedOn", "Give the day on which a hearing was asked for, between the answer and today.");
        if ((endedOn is null) != string.IsNullOrWhiteSpace(outcome))
            yield return new("HearingOutcome", "The outcome and its day belong together: give both, or neither yet.");
        if (endedOn < askedOn || endedOn > today)
            yield return new("HearingEndedOn", "Give the day of the outcome, between the hearing asked for and today.");
        if (outcome?.Trim().Length > LongestWords)
            yield return new("HearingOutcome", $"Keep it under {LongestWords} letters.");
    }

    /// <summary>All problems of a parent's statement.</summary>
    public static IEnumerable<Problem> CheckStatement(string? words, string? givenBy, LocalDate? givenOn, LocalDate today)
    {
        foreach (var problem in CheckWords("Words", words).Concat(CheckName("GivenBy", givenBy, "gave it")))
            yield return problem;
        if (givenOn is not { } day || day > today)
            yield return new("GivenOn", "Give the day of the statement; it cannot be later than today.");
    }

    private static IEnumerable<Problem> CheckWords(string field, string? words)
    {
        if (string.IsNullOrWhiteSpace(words) || words.Trim().Length > LongestWords)
            yield return new(field, $"Write it in under {LongestWords} letters.");
    }

    private static IEnumerable<Problem> CheckName(string field, string? name, string did)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Trim().Length > LongestName)
            yield return new(field, $"Say in under {LongestName} letters who {did}.");
    }
}
