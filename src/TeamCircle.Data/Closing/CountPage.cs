using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>One learner's count for one reporting period, for the page that closes it.</summary>
/// <param name="Ledger">The lines as they stand today, with their decisions and without the visits behind them.</param>
public sealed record CountPage(int LearnerId, string Learner, LedgerPage Ledger)
{
    /// <summary>Stands for all that is shown: one signs nothing else. Null while the period runs: nobody can sign it then.</summary>
    public required string? Mark { get; init; }

    public PeriodRow Period => Ledger.Period;

    /// <summary>What stands in the way; for a closed count what would stand in the way of restating it.</summary>
    public required IReadOnlyList<CountObstacle> Obstacles { get; init; }

    /// <summary>For a closed count what the last edition sealed, in its order; empty for an open one.</summary>
    public required IReadOnlyList<LineFigures> Sealed { get; init; }

    /// <summary>What the page shows of each line: what was sealed, and for an open count what would be.</summary>
    public IEnumerable<LineFigures> Figures => IsClosed ? Sealed : Ledger.Lines.Select(l => LineFigures.Of(l.Line, l.Working.Balance));

    /// <summary>The editions of the statement, the last one first; empty while it was never closed.</summary>
    public required IReadOnlyList<StatementEdition> Editions { get; init; }

    /// <summary>Whether it takes no writes now.</summary>
    public bool IsClosed { get; init; }

    /// <summary>A request to open it again that waits for a director, or the last one that was answered.</summary>
    public ReopeningShown? Reopening { get; init; }

    /// <summary>Whether the reader is the learner's case manager.</summary>
    public bool Manages { get; init; }

    /// <summary>The credential under which the reader signed last; null where they never did.</summary>
    public string? Credential { get; init; }

    public bool IsOver(LocalDate today) => today > Period.EndDay;
}

/// <summary>The figures of one line, in minutes or probes.</summary>
/// <param name="Line">The line as it is known today; null where it is on no list any more.</param>
public sealed record LineFigures(CommitmentLine? Line, int Due, int Given, int NotOwed, int Lack, int Undecided, Status Status)
{
    internal static LineFigures Of(CommitmentLine line, in Balance balance) => new(
        line, balance.Minutes.Due, balance.Minutes.Given, balance.Minutes.NotOwed, balance.Minutes.Lack, balance.Minutes.Undecided, balance.Status);
}

/// <summary>One edition of a statement.</summary>
public sealed record StatementEdition(
    int Id, int Edition, LocalDateTime SealedAt, string SealedBy, string Credential, string Hash, string? Reason, string? ReopenedBy, IReadOnlyList<LeftStanding> Left);

/// <summary>A request to open a closed count again, with its answer.</summary>
/// <param name="Granted">Null while it waits.</param>
public sealed record ReopeningShown(
    int Id, int Version, string AskedBy, LocalDateTime AskedAt, string Reason, string? AnsweredBy, LocalDateTime? AnsweredAt, bool? Granted, string? Answer);
