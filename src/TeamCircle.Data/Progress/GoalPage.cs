using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Progress;

/// <summary>One goal with its probes, for the forms that record them.</summary>
/// <param name="MayAdd">Whether the reader may add a probe of their own.</param>
/// <param name="MayNameOthers">Whether the reader may say that somebody else took it.</param>
/// <param name="Probes">The latest first; also those that were corrected or taken back.</param>
public sealed record GoalPage(
    int Id, int LearnerId, string Learner, string Area, string Statement, Measure Measure, IReadOnlyList<ProbeOnRecord> Probes,
    bool MayAdd, bool MayNameOthers, IReadOnlyList<Colleague> Team)
{
    public ProbeOnRecord? Probe(Guid id) => Probes.FirstOrDefault(p => p.Id == id);

    /// <summary>What stands in a probe's place after all its corrections; null where that was taken back.</summary>
    public ProbeOnRecord? StandingFor(ProbeOnRecord probe)
    {
        while (Probes.FirstOrDefault(p => p.Replaces == probe.Id) is { } next)
            probe = next;
        return probe.Live ? probe : null;
    }
}

/// <summary>What was said about the conditions of a probe; null where nobody said.</summary>
public sealed record ProbeConditions(string? Words, StateOfLearner? State, string? Position, string? Side, string? Place);

/// <summary>A probe as it was recorded.</summary>
/// <param name="MayChange">Whether the reader may correct it or take it back.</param>
/// <param name="Point">As the rules take it.</param>
public sealed record ProbeOnRecord(
    Guid Id, bool Live, LocalDate OnDay, decimal Value, int? Opportunities, ProbeKind Kind, Stage? Stage, LocalDate? PaysOn, ProbeConditions Conditions,
    Colleague Provider, Guid? Replaces, string? CorrectionReason, string? TakenBackReason, string RecordedBy, LocalDateTime RecordedAt, bool MayChange, GoalPoint Point)
{
    /// <summary>Whether whoever took it stood in for somebody on that day.</summary>
    public bool IsNewPerson { get; init; }
}
