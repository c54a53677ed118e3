using System.Globalization;
using NodaTime.Text;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>Times to respond in the words of the team. Shown figures are rounded half away from zero.</summary>
public static class WaitWords
{
    private static readonly YearMonthPattern Month = YearMonthPattern.CreateWithInvariantCulture("uuuu-MM");
    private static readonly YearMonthPattern MonthShown = YearMonthPattern.CreateWithInvariantCulture("MMMM uuuu");

    /// <summary>58 percent</summary>
    public static string Percent(double share) => $"{Rounded(100 * share, 0)} percent";

    /// <summary>58 percent, between 30 and 80; where there is none, why.</summary>
    public static string Share(Between share) => (share.Value.Value, share.Low.Value, share.High.Value) switch
    {
        ({ } value, { } low, { } high) => $"{Percent(value)}, {Ends(low, high)}",
        ({ } value, _, _) => Percent(value),
        _ => share.Value.Why!,
    };

    /// <summary>between 30 and 80</summary>
    public static string Ends(double low, double high) => $"between {Rounded(100 * low, 0)} and {Rounded(100 * high, 0)}";

    /// <summary>7.5 s, between 5 and 12 s; 7.5 s, at least 5 s; not reached within the waits tried.</summary>
    public static string Median(Between median) => (median.Value.Value, median.Low.Value, median.High.Value) switch
    {
        ({ } value, { } low, { } high) => $"{Seconds(value)}, between {Rounded(low, 1)} and {Seconds(high)}",
        ({ } value, { } low, null) => $"{Seconds(value)}, at least {Seconds(low)}",
        ({ } value, _, _) => Seconds(value),
        _ => median.Value.Why!,
    };

    /// <summary>7.5 s</summary>
    public static string Seconds(double seconds) => $"{Rounded(seconds, 1)} s";

    /// <summary>The median of a group that is large enough to have a curve.</summary>
    public static string MedianOf(WaitCurve curve) => curve.IsEnough ? Median(curve.Median) : TooFew(curve);

    /// <summary>The share by then of a group that is large enough to have a curve.</summary>
    public static string ShareOf(WaitCurve curve, int by) => curve.IsEnough ? Share(curve.SharedBy(by)) : TooFew(curve);

    public static string TooFew(WaitCurve curve) => $"{Figure.TooFew("trials", curve.Trials, WaitCurve.Fewest).Why}";

    /// <summary>The name of a group: as the team wrote it, a month in words, or that nobody said.</summary>
    public static string Group(string? name) =>
        name is null ? "nobody said" : Month.Parse(name) is { Success: true, Value: var month } ? MonthShown.Format(month) : name;

    /// <summary>10 s; 10 and 20 s</summary>
    public static string Waits(IReadOnlyList<int> seconds) => seconds.Count == 0 ? "none is agreed" : $"{Say.List([.. seconds.Select(Say.Number)])} s";

    /// <summary>3 remembered, 1 interrupted or without a time</summary>
    public static string LeftOut(IReadOnlyList<(LeftOut Because, int Count)> trials) => Say.List([.. trials.Select(t => $"{Say.Number(t.Count)} {t.Because switch
    {
        Core.Practice.LeftOut.Remembered => "remembered",
        Core.Practice.LeftOut.AtOnce => "with a prompt at 0 seconds",
        Core.Practice.LeftOut.Refused => "in which the learner said no",
        Core.Practice.LeftOut.DoesNotCount => "that do not count",
        _ => "interrupted or without a time",
    }}")]);

    /// <summary>Log-rank test …: chi-square 4.2, 1 degree of freedom, p 0.04.</summary>
    public static string Test(LogRank test) => test.ChiSquare.Value is { } value
        ? $"Log-rank test (Mantel 1966): chi-square {Rounded(value, 2)}, {Say.Count(test.Df, "degree")} of freedom, p {P(test.P.Value!.Value)}."
        : $"Log-rank test (Mantel 1966): {test.ChiSquare.Why}.";

    /// <summary>0.04; below 0.001</summary>
    public static string P(double p) => p < 0.001 ? "below 0.001" : Rounded(p, 3);

    /// <summary>To so many decimals at most, half away from zero.</summary>
    public static string Rounded(double value, int decimals) =>
        Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString(decimals == 0 ? "0" : "0." + new string('#', decimals), CultureInfo.InvariantCulture);
}
