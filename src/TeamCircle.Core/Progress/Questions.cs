namespace TeamCircle.Core.Progress;

/// <summary>What the last points ask the team. A question, never a verdict.</summary>
public enum Question
{
    /// <summary>Fewer points than the rule looks at.</summary>
    TooFew,

    /// <summary>Go on as it is.</summary>
    Keep,
    ChangeTeaching,
    RaiseTarget,
}

/// <summary>Published rules of thumb on points and an aimline (docs/rules.md, part 13).</summary>
/// <remarks>They come from weekly probes of oral reading: four points in a row (IRIS Center; National Center on Response to Intervention 2012),
/// in other papers three. Six to eight points are asked for first, and the four-point rule raises many false alarms (Hintze and others 2018).</remarks>
public static class Questions
{
    public const int Usual = 4, AskedForFirst = 6;

    /// <param name="points">In order of days. A point on the line is on neither side.</param>
    /// <param name="inARow">How many of the last points must lie on one side; 1 or more.</param>
    public static Question Of(Aimline aimline, IReadOnlyList<DayValue> points, int inARow = Usual)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(inARow, 1);
        if (points.Count < inARow)
            return Question.TooFew;
        var sides = points.TakeLast(inARow).Select(aimline.SideOf).Distinct().ToList();
        return sides switch
        {
            [-1] => Question.ChangeTeaching,
            [1] => Question.RaiseTarget,
            _ => Question.Keep,
        };
    }

    /// <summary>The trend against the aimline: flatter asks whether to change the teaching, steeper whether to raise the target.</summary>
    /// <param name="perWeek">The trend's slope.</param>
    public static Question OfTrend(Aimline aimline, double perWeek)
    {
        var ahead = aimline.Better == Better.Up ? perWeek - aimline.PerWeek : aimline.PerWeek - perWeek;
        return ahead switch
        {
            < 0 => Question.ChangeTeaching,
            > 0 => Question.RaiseTarget,
            _ => Question.Keep,
        };
    }
}
