namespace TeamCircle.Core.Commitments;

/// <summary>Where a service or a probe commitment stands; later is worse, but for <see cref="CannotJudge"/> (docs/rules.md, part 8).</summary>
public enum Status
{
    NothingDue,
    NothingLeftDue,
    Met,
    WithinTolerance,
    OnPace,
    OnCourse,
    NotPlanned,
    CatchingUp,
    BelowPace,
    Behind,
    CannotFit,
    NotMet,
    CannotJudge,
}
