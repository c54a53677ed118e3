using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Family;

/// <summary>One visit as a family hears of it.</summary>
/// <param name="Discipline">Null for a visit that is for no service.</param>
/// <param name="IsCalledOff">Whether it was called off, before or on its day.</param>
/// <param name="Outcome">Null where nothing has been logged.</param>
/// <param name="Reason">Why it was called off, not given or cut short; null where it was neither, or where nobody said.</param>
/// <param name="Given">Minutes that were given; 0 where none.</param>
/// <param name="Expected">When somebody who runs late expects to begin.</param>
public sealed record FamilyVisit(
    LocalDate On, LocalTime Start, int Minutes, VisitKind Kind, Discipline? Discipline, string Provider, Place Place, bool IsMakeUp,
    bool IsCalledOff, VisitOutcome? Outcome, Reason? Reason, int Given, LocalTime? Expected)
{
    /// <summary>Why what was given counts no minutes; null where it counts.</summary>
    public Withheld? Withheld { get; init; }
}
