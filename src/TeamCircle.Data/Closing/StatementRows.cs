namespace TeamCircle.Data.Closing;

/// <summary>One edition of the statement that closed a learner's count for one reporting period. Never changed: a restatement is another edition.</summary>
/// <remarks>JSON stands as text, canonical (<see cref="Core.Closing.CanonicalJson"/>): the database would write it otherwise, and the hash would not fit.</remarks>
public sealed class StatementRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PeriodId { get; set; }

    /// <summary>1 for the first; each restatement, and each closing after the count was reopened, is another.</summary>
    public int Edition { get; set; } = 1;
    public int SealedBy { get; set; }

    /// <summary>To the microsecond, as the database keeps it.</summary>
    public Instant SealedAt { get; set; }

    /// <summary>Under which credential it was signed.</summary>
    public required string Credential { get; set; }

    /// <summary>What the signature means, in a sentence.</summary>
    public required string Meaning { get; set; }

    /// <summary>The version of the rules by which the answers were worked out.</summary>
    public required string Rules { get; set; }

    /// <summary>JSON of the policy in force on the period's last day.</summary>
    public required string Policy { get; set; }

    /// <summary>The as-of day of every answer.</summary>
    public LocalDate AsOf { get; set; }

    /// <summary>JSON of what stood beside the figures: the plan's words, names, decisions, how times were known.</summary>
    public required string Facts { get; set; }

    /// <summary>JSON of what stood in the way and was left standing, each with the case manager's word why; an empty list where nothing was.</summary>
    public required string LeftStanding { get; set; }

    /// <summary>SHA-256 in hexadecimal over all of this and the sealed lines, by <see cref="Core.Closing.SealedStatement.Hash"/>.</summary>
    public required string Hash { get; set; }

    /// <summary>The hash of the last block of the trail before it, in hexadecimal; null where nothing was sealed yet.</summary>
    public string? BlockHash { get; set; }

    /// <summary>The statement in whose place it stands; null for the first.</summary>
    public int? RestatesId { get; set; }

    /// <summary>Why it was restated, or why the count was reopened before it; null for the first.</summary>
    public string? Reason { get; set; }

    /// <summary>The second person, where the count was reopened before it.</summary>
    public int? ReopenedBy { get; set; }

    /// <summary>All that its hash stands for.</summary>
    public Core.Closing.SealedStatement Sealed(IReadOnlyList<Core.Closing.SealedLine> lines) => new(
        AgencyId, LearnerId, PeriodId, Edition, SealedBy, SealedAt, Credential, Meaning, Rules, Policy, AsOf, Facts, LeftStanding, BlockHash, RestatesId,
        Reason, ReopenedBy, lines);
}

/// <summary>What was sealed of one line in a statement: the inputs and the answer of case kind <c>commitment</c>, as <c>workout</c> reads and writes them.</summary>
public sealed class SealedLineRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int StatementId { get; set; }

    /// <summary>From 0: services in the order they came, then the goals.</summary>
    public int Position { get; set; }

    /// <summary>Exactly one of service and goal. A goal has a line for each owner of whom probes are asked, and for each kind of window it had.</summary>
    public int? ServiceId { get; set; }
    public int? GoalId { get; set; }

    /// <summary>For probes asked of each owner: the owner.</summary>
    public int? OwnerId { get; set; }

    /// <summary>Canonical JSON.</summary>
    public required string Inputs { get; set; }

    /// <summary>Canonical JSON.</summary>
    public required string Answer { get; set; }

    public Core.Closing.SealedLine Sealed => new(Position, ServiceId, GoalId, OwnerId, Inputs, Answer);
}

/// <summary>The case manager asks to open a closed count again; a director, another person, answers.</summary>
public sealed class ReopeningRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PeriodId { get; set; }

    /// <summary>The edition that stood then.</summary>
    public int StatementId { get; set; }
    public int AskedBy { get; set; }
    public Instant AskedAt { get; set; }
    public required string Reason { get; set; }
    public int? AnsweredBy { get; set; }
    public Instant? AnsweredAt { get; set; }

    /// <summary>Null while it waits.</summary>
    public bool? Granted { get; set; }
    public string? Answer { get; set; }
    public int Version { get; set; }
}
