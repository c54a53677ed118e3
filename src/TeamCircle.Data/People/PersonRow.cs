using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>A person in one agency. Signing in belongs to an account, which may have a person in several agencies.</summary>
public sealed class PersonRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }

    /// <summary>Unique within the agency, whatever its case.</summary>
    public required string Email { get; set; }
    public required string Name { get; set; }
    public string? Credential { get; set; }

    /// <summary>The most minutes of visits a day that make-up visits may bring them to; null: as many as the hours hold.</summary>
    public int? MostMinutesADay { get; set; }

    /// <summary>From then on the person can do nothing in this agency; null while active.</summary>
    public Instant? EndedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A name that a person bore before. What was signed before bears it.</summary>
public sealed class PersonNameRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int PersonId { get; set; }
    public required string Name { get; set; }

    /// <summary>The first day of the name after it.</summary>
    public LocalDate UntilDay { get; set; }
    public required string Paper { get; set; }
    public int ChangedBy { get; set; }
    public Instant ChangedAt { get; set; }
}

/// <summary>A role of a person, with dates; both ends belong to it, no end means open.</summary>
public sealed class PersonRoleRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int PersonId { get; set; }
    public Role Role { get; set; }
    public LocalDate FromDay { get; set; }
    public LocalDate? ToDay { get; set; }
    public int Version { get; set; }
}

/// <summary>A discipline in which a person is qualified.</summary>
public sealed class PersonDisciplineRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int PersonId { get; set; }
    public Core.Learners.Discipline Discipline { get; set; }
}

/// <summary>How a person stands to a learner, with dates: what they may reach follows from it on every request.</summary>
public sealed class RelationRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PersonId { get; set; }
    public Relation Kind { get; set; }
    public LocalDate FromDay { get; set; }
    public LocalDate? ToDay { get; set; }

    /// <summary>The named supervisor of an assistant.</summary>
    public int? SupervisorId { get; set; }

    /// <summary>The paper or authority that it rests on, in words; never shown to families.</summary>
    public string? Ground { get; set; }

    /// <summary>Of a family: whether they may say on their page what was practised at home, where the agency has that switched on.</summary>
    public bool TapsAtHome { get; set; }

    /// <summary>Of a family: on what they keep reading after the learner has come of age; null until that is decided.</summary>
    public AdultBasis? AdultBasis { get; set; }

    /// <summary>The paper that it rests on, in words; null with the basis.</summary>
    public string? AdultPaper { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
