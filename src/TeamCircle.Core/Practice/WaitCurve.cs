using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Practice;

/// <summary>One trial as the wait curve sees it.</summary>
/// <param name="Seconds">The time to respond; where no response came, how long nobody helped.</param>
/// <param name="Answered">A response came before any prompt. If not, whether one was coming is not known: the trial is censored.</param>
/// <param name="Group">The condition or person it belongs to.</param>
public readonly record struct TimedTrial(decimal Seconds, bool Answered, string? Group = null);

/// <summary>The curve at one time at which a response came.</summary>
/// <param name="AtRisk">Trials in which neither a response nor help had come before that time.</param>
/// <param name="Answered">Responses at that time.</param>
/// <param name="Waiting">Share still waiting after it, from 0 to 1.</param>
public sealed record WaitStep(decimal Seconds, int AtRisk, int Answered, double Waiting)
{
    /// <summary>Greenwood's sum up to this step, and how many standard errors the limits are away.</summary>
    private readonly (double Sum, double Width) _spread;

    internal WaitStep(decimal seconds, int atRisk, int answered, double waiting, double sum, double width)
        : this(seconds, atRisk, answered, waiting) => _spread = (sum, width);

    /// <summary>Standard error (Greenwood 1926); none, as the limits, once nobody is waiting.</summary>
    public Figure Se => Where(Waiting * Math.Sqrt(_spread.Sum));

    /// <summary>Limit of the share still waiting, by the log-log transformation (Kalbfleisch and Prentice 1980).</summary>
    public Figure Low => Where(LimitAt(1));

    /// <inheritdoc cref="Low"/>
    public Figure High => Where(LimitAt(-1));

    // worked out when asked for: of a curve with thousands of steps few are read
    private double LimitAt(int side) => Math.Pow(Waiting, Math.Exp(side * _spread.Width * Math.Sqrt(_spread.Sum) / Math.Abs(Math.Log(Waiting))));

    private Figure Where(double value) => AtRisk == Answered ? Figure.None("nobody is left waiting") : Figure.Of(value);
}

/// <summary>The curve read off at one time.</summary>
/// <param name="Left">Trials that took longer, answered or not.</param>
/// <param name="Share">Of responses by then.</param>
public sealed record WaitReading(int Seconds, int Left, Between Share);

/// <summary>A figure with its limits; each may be missing for its own reason.</summary>
public sealed record Between(Figure Value, Figure Low, Figure High);

/// <summary>How long the learner takes to respond, with the trials in which somebody helped first (Kaplan and Meier 1958; docs/rules.md, part 12).</summary>
/// <remarks>
/// <para>A response at a time comes before help at that time. The share that has responded is 1 less the share still waiting.</para>
/// <para>It takes help as coming without regard to the response. Adults often help early because they see something, and trials of one
/// visit are not independent: the curve is not proof, and its limits are too narrow rather than too wide.</para>
/// </remarks>
public sealed class WaitCurve
{
    /// <summary>Pages show a curve from this many trials on.</summary>
    public const int Fewest = 10;

    public const int MostReadings = 60;

    // sums and products of a few thousand terms: a half that is one in exact arithmetic stays one
    private const double Rounding = 1e-12;

    internal static readonly Comparison<TimedTrial> BySeconds = (one, other) => one.Seconds.CompareTo(other.Seconds);

    private readonly decimal[] _times;

    private WaitCurve(decimal[] times, IReadOnlyList<WaitStep> steps) => (_times, Steps) = (times, steps);

    public int Trials => _times.Length;

    public bool IsEnough => Trials >= Fewest;

    /// <summary>The longest time, answered or not, in seconds: the curve says nothing after it. 0 without trials.</summary>
    public decimal Longest => _times.Length == 0 ? 0 : _times[^1];

    /// <summary>At answered times only, in order.</summary>
    public IReadOnlyList<WaitStep> Steps { get; }

    public int Answered => Steps.Sum(s => s.Answered);

    /// <exception cref="ArgumentOutOfRangeException">A time is negative, or the confidence does not lie between 0 and 1.</exception>
    public static WaitCurve Of(IReadOnlyList<TimedTrial> trials, double confidence = Confidence.Usual)
    {
        if (trials.Any(t => t.Seconds < 0))
            throw new ArgumentOutOfRangeException(nameof(trials), "A time is 0 or more.");
        var width = Confidence.Width(confidence);
        TimedTrial[] sorted = [.. trials];
        Array.Sort(sorted, BySeconds);
        var (waiting, sum, steps) = (1.0, 0.0, new List<WaitStep>());
        for (int from = 0, to; from < sorted.Length; from = to)
        {
            (var atRisk, var answered, to) = (sorted.Length - from, 0, from);
            for (; to < sorted.Length && sorted[to].Seconds == sorted[from].Seconds; to++)
                answered += sorted[to].Answered ? 1 : 0;
            if (answered == 0)
                continue;
            waiting *= (double)(atRisk - answered) / atRisk;
            sum += answered / ((double)atRisk * (atRisk - answered));
            steps.Add(new(sorted[from].Seconds, atRisk, answered, waiting, sum, width));
        }
        return new(Array.ConvertAll(sorted, t => t.Seconds), steps);
    }

    /// <summary>The first time at which half or fewer are still waiting, in seconds; its limits are the first times at which the lower and the
    /// upper limit of the curve are (Brookmeyer and Crowley 1982, with log-log limits). None where that is not reached.</summary>
    public Between Median => new(First(s => s.Waiting), First(s => s.Low.Value), First(s => s.High.Value));

    /// <summary>The share that responded within so many seconds, with its limits. None past the longest time, unless nobody was left waiting.</summary>
    public Between SharedBy(decimal seconds)
    {
        if (Reach(seconds) is { } why)
            return new(why, why, why);
        var step = Steps.LastOrDefault(s => s.Seconds <= seconds);
        if (step is null)
            return new(Figure.Of(0), Figure.None("no response by then"), Figure.None("no response by then"));
        return new(Figure.Of(1 - step.Waiting), Rest(step.High), Rest(step.Low));
    }

    /// <summary>The curve at whole seconds from 0 up to the longest time; at every second, third … of them where there would be more than
    /// <see cref="MostReadings"/>.</summary>
    public IEnumerable<WaitReading> Readings()
    {
        var longest = (int)Longest;
        for (var seconds = 0; seconds <= longest; seconds += (longest / MostReadings) + 1)
            yield return At(seconds);
    }

    public WaitReading At(int seconds) => new(seconds, _times.Count(t => t > seconds), SharedBy(seconds));

    /// <summary>The mean time up to a limit: the area under the share still waiting from 0 to <paramref name="upTo"/> seconds, with its standard
    /// error. None past the longest time, unless nobody was left waiting.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The limit is negative.</exception>
    public (Figure Value, Figure Se) RestrictedMean(decimal upTo)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(upTo);
        if (Reach(upTo) is { } why)
            return (why, why);
        // from the limit back to each step: what is left of the area from there on
        var (area, variance, end) = (0.0, 0.0, upTo);
        foreach (var step in Steps.Where(s => s.Seconds < upTo).Reverse())
        {
            area += step.Waiting * (double)(end - step.Seconds);
            if (step.AtRisk > step.Answered)
                variance += area * area * step.Answered / ((double)step.AtRisk * (step.AtRisk - step.Answered));
            end = step.Seconds;
        }
        return (Figure.Of(area + (double)end), Figure.Of(Math.Sqrt(variance)));
    }

    /// <summary>Responses that came in the last quarter of the wait, or after it: where there are any, the wait may be cutting responses off.</summary>
    /// <param name="wait">In seconds.</param>
    public int InLastQuarterOf(decimal wait) => Steps.Where(s => s.Seconds >= 0.75m * wait).Sum(s => s.Answered);

    private Figure First(Func<WaitStep, double?> share) =>
        Steps.FirstOrDefault(s => share(s) <= 0.5 + Rounding) is { } step
            ? Figure.Of((double)step.Seconds)
            : Trials == 0 ? Figure.None(Proportion.NoTrials) : Figure.None("not reached within the waits tried");

    private Figure? Reach(decimal seconds)
    {
        if (Trials == 0)
            return Figure.None(Proportion.NoTrials);
        return seconds > Longest && Steps is not [.., { Waiting: 0 }] ? Figure.None("no trial waited that long") : null;
    }

    private static Figure Rest(Figure waiting) => waiting.Value is { } value ? Figure.Of(1 - value) : waiting;
}
