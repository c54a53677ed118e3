namespace TeamCircle.Core.Commitments;

/// <summary>The words of a status that staff read, on pages, in files and at the terminal.</summary>
public static class StatusWords
{
    public static string Of(Status status) => status switch
    {
        Status.NothingDue => "nothing due",
        Status.NothingLeftDue => "decided and nothing left due",
        Status.Met => "met",
        Status.WithinTolerance => "within tolerance",
        Status.OnPace => "on pace",
        Status.OnCourse => "on course",
        Status.NotPlanned => "not planned yet",
        Status.CatchingUp => "make-ups planned",
        Status.BelowPace => "below pace",
        Status.Behind => "to make up",
        Status.CannotFit => "team must decide",
        Status.NotMet => "not met",
        _ => "can't be judged as written",
    };
}
