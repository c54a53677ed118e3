namespace TeamCircle.Core.Learners;

/// <summary>The parts of "How we teach", in the order of the page.</summary>
public enum TeachPart
{
    ShowingThings,
    Position,
    Hands,
    Switch,
    SignalYes,
    SignalMore,
    SignalNo,
    SignalStop,
    SignalTired,
    SignalPain,
    Cautions,

    /// <summary>Where the learner's own health plan lies, and what to do first; the plan itself stays where the nurse keeps it.</summary>
    HealthPlan,
}

/// <summary>Who writes which part of "How we teach".</summary>
public static class HowWeTeach
{
    /// <summary>The discipline that usually owns a part; null for those that belong to the whole team, which its case manager keeps.</summary>
    public static Discipline? UsualOwner(TeachPart part) => part switch
    {
        TeachPart.ShowingThings => Discipline.Vision,
        TeachPart.Position => Discipline.PhysicalTherapy,
        TeachPart.Hands => Discipline.OccupationalTherapy,
        TeachPart.Switch => Discipline.AssistiveTechnology,
        _ => null,
    };

    /// <summary>Whether a part says what the learner does to mean something.</summary>
    public static bool IsSignal(TeachPart part) => part is >= TeachPart.SignalYes and <= TeachPart.SignalPain;

    /// <summary>The owner's own discipline writes a part; one that no discipline owns is the case manager's.</summary>
    /// <param name="owner">The part's owner, null where no discipline owns it.</param>
    /// <param name="qualified">The disciplines of whoever asks.</param>
    /// <param name="manages">Whether they are the learner's case manager.</param>
    public static bool MayWrite(Discipline? owner, IReadOnlySet<Discipline> qualified, bool manages) =>
        owner is { } discipline ? qualified.Contains(discipline) : manages;
}
