using TeamCircle.Core.Reports;

namespace TeamCircle.Data.Reports;

/// <summary>One edition of a report with all that is said, written and signed.</summary>
/// <param name="Period">The reporting period's name.</param>
/// <param name="Owners">With whether each has signed what stands now.</param>
/// <param name="Signatures">Oldest first; also those that stand for what was there before.</param>
/// <param name="OwnCredential">What the reader last signed under; null where they never signed.</param>
public sealed record ReportPage(
    int Id, int LearnerId, string Learner, string Agency, string Period, LocalDate From, LocalDate To, int Edition, ReportState State, int Version, string Hash,
    ReportFacts? Facts, IReadOnlyList<ReportGoal> Goals, IReadOnlyList<ReportSigner> Owners, IReadOnlyList<ReportSignature> Signatures, string? OwnCredential)
{
    public string? FinishedWithout { get; init; }
    public LocalDateTime? SharedAt { get; init; }

    /// <summary>Why another edition stands in its place; null where none does.</summary>
    public string? Replaced { get; init; }

    /// <summary>Whether the reader is the learner's case manager.</summary>
    public bool Manages { get; init; }

    /// <summary>Whether the reader may sign: an owner of some goal in it, or the case manager.</summary>
    public bool MaySign { get; init; }
    public bool MayBringIn { get; init; }

    /// <summary>Whether the reader's own signature stands for what is there now.</summary>
    public bool HasSigned { get; init; }

    /// <summary>What stands in the way of signing, in words; empty where nothing does.</summary>
    public IReadOnlyList<string> NotReady { get; init; } = [];

    public ReportGoal? Goal(int goal) => Goals.FirstOrDefault(g => g.Said.Goal == goal);
}

/// <param name="Facts">Null where the figures hold none for it.</param>
/// <param name="Parts">What each owner wrote, in the owners' order.</param>
/// <param name="Waiting">Owners who have written nothing.</param>
/// <param name="MayWrite">Whether the reader may write and join here.</param>
public sealed record ReportGoal(
    GoalSaid Said, GoalFacts? Facts, string Area, string Statement, int Version, string? JoinedBy, IReadOnlyList<ReportPart> Parts,
    IReadOnlyList<string> Waiting, bool MayWrite, ReportReview? Review);

/// <param name="IsOwn">Whether the reader wrote it.</param>
public sealed record ReportPart(string Person, string Words, LocalDateTime At, bool IsOwn, int Version);

/// <summary>The review that "not enough progress" asks for.</summary>
/// <param name="Word">Null while it is open.</param>
public sealed record ReportReview(string? Word, string? By, LocalDateTime? At)
{
    public bool IsOpen => Word is null;
}

/// <param name="IsReader">Whether it is the reader themselves.</param>
public sealed record ReportSigner(string Name, bool HasSigned, bool IsReader);

/// <param name="Stands">Whether it stands for what the report says now.</param>
public sealed record ReportSignature(string Name, string Credential, LocalDateTime At, bool Stands, bool Finishes);

/// <summary>A learner's reports, period by period, the latest first.</summary>
/// <param name="MayBegin">Whether the reader may begin one.</param>
public sealed record ReportsPage(int LearnerId, string Learner, IReadOnlyList<ReportPeriod> Periods, bool MayBegin);

/// <param name="Report">The edition that stands; null where none has been begun.</param>
/// <param name="Before">Editions that were replaced.</param>
public sealed record ReportPeriod(int Id, string Name, LocalDate From, LocalDate To, ReportListed? Report, IReadOnlyList<ReportListed> Before);

public sealed record ReportListed(int Id, int Edition, ReportState State, LocalDateTime? FinishedAt, LocalDateTime? SharedAt, string? Replaced);

/// <summary>A report as the family reads it: what was shared, and nothing of how it was written.</summary>
public sealed record FamilyReport(int Id, string Child, string Agency, LocalDate From, LocalDate To, IReadOnlyList<FamilyReportGoal> Goals, IReadOnlyList<ReportSignature> Signatures, LocalDate SharedOn);

public sealed record FamilyReportGoal(string Area, string Statement, GoalSaid Said, GoalFacts? Facts);

/// <summary>A report that the family can read.</summary>
public sealed record SharedReport(int Id, LocalDate From, LocalDate To);

/// <summary>What waits for one person about reports.</summary>
public sealed record ReportWaits(int Report, int LearnerId, string Period, ReportWait What, int? Goal);

public enum ReportWait
{
    /// <summary>Their paragraph about a goal of theirs.</summary>
    Part,

    /// <summary>Their signature under what stands.</summary>
    Signature,

    /// <summary>A goal whose progress was not enough: the team looks at the teaching.</summary>
    Review,
}
