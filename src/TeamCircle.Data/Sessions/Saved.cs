namespace TeamCircle.Data.Sessions;

/// <summary>What was saved about a visit, for the message that says so.</summary>
/// <param name="Sessions">One for each learner.</param>
/// <param name="Visit">The first learner's visit.</param>
/// <param name="Credited">Minutes that count for the first learner's service.</param>
/// <param name="Notices">What a person should know about it.</param>
public sealed record Saved(
    IReadOnlyList<Guid> Sessions, Guid Visit, LocalDate OnDay, LocalTime Start, LocalTime End, int Credited, IReadOnlyList<string> Notices);
