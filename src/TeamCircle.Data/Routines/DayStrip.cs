namespace TeamCircle.Data.Routines;

/// <summary>What to set out for a learner on one day, in order.</summary>
/// <param name="IsToday">Whether some of it can be past.</param>
public sealed record DayStrip(int LearnerId, string Learner, LocalDate Day, bool IsToday, IReadOnlyList<StripThing> Things);

public enum StripTime
{
    Past,

    /// <summary>What runs now, or else comes next: one at most.</summary>
    Now,
    ToCome,
}

/// <param name="Routine">Its name.</param>
/// <param name="ObjectCue">What announces it; null where none is agreed.</param>
/// <param name="At">When the visit begins; null for practice at home, which has no time and stands last.</param>
/// <param name="Picture">A picture of the object cue; null where there is none.</param>
/// <param name="Who">Whose visit it is, or who practises at home; null where nobody was named.</param>
public sealed record StripThing(int RoutineId, string Routine, string? ObjectCue, PictureShown? Picture, LocalTime? At, string? Who, StripTime Time);
