using TeamCircle.Core.Rights;

namespace TeamCircle.Data.Rights;

/// <summary>A request of a parent to see or to amend a record, and what came of it.</summary>
public sealed class RecordRequestRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public RequestKind Kind { get; set; }
    public LocalDate ReceivedOn { get; set; }

    /// <summary>Who asked, in words.</summary>
    public required string AskedBy { get; set; }
    public required string Words { get; set; }
    public int EnteredBy { get; set; }
    public Instant EnteredAt { get; set; }

    /// <summary>Null until it is answered.</summary>
    public RequestAnswer? Answer { get; set; }
    public LocalDate? AnsweredOn { get; set; }
    public int? AnsweredBy { get; set; }
    public string? AnswerWords { get; set; }

    /// <summary>When the parent was told of the right to a hearing.</summary>
    public LocalDate? NoticeOn { get; set; }
    public LocalDate? HearingAskedOn { get; set; }
    public LocalDate? HearingEndedOn { get; set; }
    public string? HearingOutcome { get; set; }
    public int Version { get; set; }
}

/// <summary>A parent's statement (34 CFR 300.620(b)): kept with the part of the record that it is about, and shown wherever that is shown. Never changed.</summary>
public sealed class ParentStatementRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int RequestId { get; set; }
    public StatementAbout About { get; set; }

    /// <summary>Set where <see cref="About"/> says so, null otherwise; the same for the next two.</summary>
    public Guid? VisitId { get; set; }
    public Guid? ProbeId { get; set; }
    public int? ReportId { get; set; }
    public required string Words { get; set; }
    public required string GivenBy { get; set; }
    public LocalDate GivenOn { get; set; }
    public int EnteredBy { get; set; }
    public Instant EnteredAt { get; set; }
}
