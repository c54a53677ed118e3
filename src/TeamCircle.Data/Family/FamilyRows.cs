using TeamCircle.Core.Family;

namespace TeamCircle.Data.Family;

/// <summary>What a family said, in its own words: on its page where the agency has that switched on, or taken down by staff. It changes no record.</summary>
public sealed class FamilyRemarkRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>The visit that it is about; null: none.</summary>
    public Guid? VisitId { get; set; }
    public RemarkKind Kind { get; set; }
    public required string Words { get; set; }

    /// <summary>Who said it, in words.</summary>
    public required string SaidBy { get; set; }
    public LocalDate SaidOn { get; set; }

    /// <summary>Whoever typed it: a member of the team, or the family itself.</summary>
    public int EnteredBy { get; set; }
    public Instant EnteredAt { get; set; }

    /// <summary>True: typed by the family on its page.</summary>
    public bool ByFamily { get; set; }

    /// <summary>What the family reads in answer; null until somebody answered.</summary>
    public string? Answer { get; set; }
    public int? AnsweredBy { get; set; }
    public Instant? AnsweredAt { get; set; }
    public int Version { get; set; }
}

/// <summary>One edition of a summary for the family: a draft, then published; it changes no more after that.</summary>
public sealed class FamilySummaryRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>1 for the first; each correction of a published one is another.</summary>
    public int Edition { get; set; } = 1;

    /// <summary>The published edition that it takes the place of once it is published itself; null for a first edition.</summary>
    public int? CorrectsId { get; set; }

    /// <summary>What was wrong with that one.</summary>
    public string? CorrectsWhy { get; set; }

    /// <summary>Both days belong to it.</summary>
    public LocalDate FirstDay { get; set; }
    public LocalDate LastDay { get; set; }
    public int BegunBy { get; set; }

    /// <summary>JSON of the <see cref="SummaryContent"/>.</summary>
    public required string Content { get; set; }
    public int? PublishedBy { get; set; }
    public Instant? PublishedAt { get; set; }
    public int? WithdrawnBy { get; set; }
    public Instant? WithdrawnAt { get; set; }
    public string? WithdrawnWhy { get; set; }

    /// <summary>False where another edition stands in its place, or where a draft was thrown away.</summary>
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }

    public SummaryState State => !Live ? SummaryState.Replaced
        : WithdrawnAt is not null ? SummaryState.Withdrawn
        : PublishedAt is not null ? SummaryState.Published : SummaryState.Draft;
}
