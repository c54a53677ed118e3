using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Calendar;

public sealed class TermRow : IAgencyRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public required string Name { get; set; }
    public LocalDate FirstDay { get; set; }
    public LocalDate LastDay { get; set; }
    public TermKind Kind { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A day that differs from the ordinary ones. Taken back by <see cref="Live"/>, never deleted.</summary>
public sealed class ClosureRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public LocalDate OnDay { get; set; }
    public required string Name { get; set; }
    public ClosureKind Kind { get; set; }
    public bool Live { get; set; } = true;
    public string? Reason { get; set; }
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A reporting period; both ends belong to it.</summary>
public sealed class PeriodRow : IAgencyRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public required string Name { get; set; }
    public LocalDate StartDay { get; set; }
    public LocalDate EndDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>The agency's written policy for counting, from the first day of a reporting period on.</summary>
public sealed class PolicyRow : IAgencyRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public LocalDate FromDay { get; set; }
    public ShortWindow ShortWindow { get; set; }
    public Surplus Surplus { get; set; }
    public int TolerancePercent { get; set; }
    public int SessionShare { get; set; } = 100;

    /// <summary>The policy's own words, and where they are written: quoted wherever it lowers a promise.</summary>
    public string? PolicyWords { get; set; }
    public string? WrittenIn { get; set; }
    public string? Reason { get; set; }
    public int? SecondPersonId { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
