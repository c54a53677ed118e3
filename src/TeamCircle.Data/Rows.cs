namespace TeamCircle.Data;

/// <summary>A row of one agency: <c>agency_id</c> leads its primary key and every foreign key.</summary>
public interface IAgencyRow
{
    int AgencyId { get; set; }
}

/// <summary>A row about one learner: row-level security lets a person reach it through the learners they may see.</summary>
public interface ILearnerRow : IAgencyRow
{
    int LearnerId { get; set; }
}

/// <summary>
/// A row that people edit. The database raises <see cref="Version"/> with every update; an edit that was begun on an
/// older version is refused. Not xmin: that does not survive a logical backup.
/// </summary>
public interface IVersionedRow
{
    int Version { get; set; }
}

/// <summary>
/// A dated row that a rule reads and that people may set right: what changes is a new row, and the old one stays with
/// <see cref="Live"/> false and the reason. Queries see live rows only, unless they ask for all (<c>IgnoreQueryFilters</c>).
/// </summary>
public interface ITakenBackRow
{
    bool Live { get; set; }
    string? TakenBackReason { get; set; }
    Instant RecordedAt { get; set; }
}
