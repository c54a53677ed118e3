using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>The steps from sums to a status (docs/rules.md, part 8).</summary>
internal static class StatusSteps
{
    /// <summary>The status of one unit.</summary>
    /// <param name="sums">The sums over the windows that close in the period.</param>
    /// <param name="isOver">Whether the as-of day lies after the period.</param>
    /// <param name="tolerancePercent">Whole percent of what is due; 0 for sessions.</param>
    /// <param name="needed">The space that what is short as planned takes.</param>
    /// <param name="spaceLeft">The learner's space left; null where the learner's time is not used.</param>
    public static Status Of(in PeriodBalance sums, bool isOver, int tolerancePercent, Ratio needed, int? spaceLeft)
    {
        if (sums.Due == 0)
            return sums.Owed > 0 ? Status.NothingLeftDue : Status.NothingDue;
        if (sums.Lack == 0)
            return Status.Met;
        if (isOver)
            return sums.Lack <= (long)sums.Due * tolerancePercent / 100 ? Status.WithinTolerance : Status.NotMet;
        if (sums.ShortAsPlanned == 0)
            return sums.LackSoFar == 0 ? Status.OnCourse : Status.CatchingUp;
        if (spaceLeft is { } space && needed.IsMoreThan(space))
            return Status.CannotFit;
        return sums.LackSoFar == 0 ? Status.NotPlanned : Status.Behind;
    }

    /// <summary>The line's status: by its open windows where what closes owes nothing, else the worse of its units.</summary>
    public static (Status Status, WorseUnit Worse) Line(Status minutes, Status? sessions, int owed, in OpenBalance open)
    {
        if (owed == 0 && open.Windows > 0)
            return (open.AllOnPace ? Status.OnPace : Status.BelowPace, WorseUnit.Alike);
        if (sessions is not { } other || other == minutes)
            return (minutes, WorseUnit.Alike);
        return other > minutes ? (other, WorseUnit.Sessions) : (minutes, WorseUnit.Minutes);
    }
}
