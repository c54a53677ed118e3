using TeamCircle.Core.Learners;
using TeamCircle.Core.Monitoring;

namespace TeamCircle.Data.Monitoring;

/// <summary>A sample of files as it was drawn: with its seed and its population anybody can draw it again. Never edited.</summary>
public sealed class SampleRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }

    /// <summary>The reporting period in which a file had a service.</summary>
    public int PeriodId { get; set; }

    /// <summary>Of what kind that service was; null: any.</summary>
    public Discipline? Discipline { get; set; }
    public long Seed { get; set; }

    /// <summary>How many files it was drawn from.</summary>
    public int Population { get; set; }
    public int DrawnBy { get; set; }
    public Instant DrawnAt { get; set; }
}

/// <summary>A learner's file in a sample.</summary>
public sealed class SampleFileRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int SampleId { get; set; }
    public int LearnerId { get; set; }

    /// <summary>In the order in which it was drawn, from 1.</summary>
    public int Position { get; set; }
}

/// <summary>What somebody answered to one question about a file.</summary>
public sealed class SampleAnswerRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int FileId { get; set; }
    public int LearnerId { get; set; }
    public FileQuestion Question { get; set; }
    public FileAnswer Answer { get; set; }
    public string? Word { get; set; }
    public int AnsweredBy { get; set; }
    public Instant AnsweredAt { get; set; }
    public int Version { get; set; }
}
