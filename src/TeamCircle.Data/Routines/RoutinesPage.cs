using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>A learner's routines, and where each is to be practised in the weeks to come.</summary>
/// <param name="MayWrite">Whether the reader may add and plan routines.</param>
/// <param name="Slots">The visits of the next weeks at which one can be planned: series, and visits on their own.</param>
public sealed record RoutinesPage(int LearnerId, string Learner, bool MayWrite, IReadOnlyList<RoutineShown> Routines, IReadOnlyList<PracticeSlot> Slots, IReadOnlyList<EndedRoutine> Ended);

/// <param name="Slots">The keys of the slots at which it is planned.</param>
/// <param name="Home">What is agreed for home, from today on.</param>
/// <param name="Review">Where the review of its card stands; null where nobody has written the card yet.</param>
public sealed record RoutineShown(
    int Id, string Name, string? ObjectCue, Place? Place, IReadOnlySet<string> Slots, IReadOnlyList<HomeDay> Home, ReviewState? Review);

/// <summary>A routine that is practised no more; its card can still be read.</summary>
public sealed record EndedRoutine(int Id, string Name, LocalDate On);

/// <summary>Every such weekday, or one day: exactly one of the two is set.</summary>
public sealed record HomeDay(IsoDayOfWeek? Weekday, LocalDate? OnDay, string? Who);

/// <summary>A series, or a visit on its own.</summary>
/// <param name="Series">Exactly one of this and <paramref name="Visit"/> is set.</param>
/// <param name="Days">The days on which it comes in the next weeks.</param>
public sealed record PracticeSlot(int? Series, Guid? Visit, IReadOnlyList<LocalDate> Days, LocalTime Start, VisitKind Kind, Discipline? Discipline, string Provider)
{
    /// <summary>Names it in a form.</summary>
    public string Key => Series is { } series ? $"s{series}" : $"v{Visit}";
}
