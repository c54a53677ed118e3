using TeamCircle.Core;
using TeamCircle.Core.Progress;
using TeamCircle.Web.Pages.Practice;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>One effect as a line: its full name with the author, its figure, what the figure means.</summary>
public sealed record EffectLine(string Name, string Author, string Value, string Meaning);

/// <summary>Effects under their full names, the abbreviation once.</summary>
public static class EffectWords
{
    private const int Decimals = 3;

    public static IEnumerable<EffectLine> Of(Overlap overlap)
    {
        var (nap, corrected, ratio) = (overlap.Nap, overlap.BaselineCorrectedTau, overlap.LogResponseRatio);
        yield return new("Non-overlap of all pairs (NAP)", "Parker and Vannest 2009; standard error Mee 1990, interval Newcombe 2006 (method 5)",
            Nap(nap), "The share of pairs of a point before and a point during teaching in which the later one is better. 0.5: no difference.");
        yield return new("Tau", "Parker, Vannest, Davis and Sauber 2011", Number(overlap.Tau), "Pairs that improve less pairs that worsen, of all pairs. 0: no difference.");
        yield return new("Tau less the trend before teaching (Tau-U)", "Parker, Vannest, Davis and Sauber 2011", TauU(overlap.TauU),
            "The same, less what already rose or fell before teaching.");
        yield return new("Baseline-corrected Tau", "Tarlow 2017", Corrected(corrected), Applies(corrected));
        yield return new("Log response ratio", "Pustejovsky 2018, corrected for few points; natural logarithm", WithSe(ratio.Value, ratio.Se), Change(ratio.Value));
        yield return new("Percentage of non-overlapping data (PND)", "Scruggs, Mastropieri and Casto 1987", Share(overlap.Pnd), "Points during teaching that are better than the best one before.");
        yield return new("Percentage exceeding the median (PEM)", "Ma 2006", Share(overlap.Pem), "Points during teaching past the median before; one on it counts half.");
        yield return new("Improvement rate difference (IRD)", "Parker, Vannest and Brown 2009, robust", Number(overlap.Ird), "1 less the points that would have to go, half from each side, until nothing overlaps.");
    }

    private static string Nap(Nap nap) => (nap.Value.Value, nap.Low.Value, nap.High.Value) switch
    {
        (null, _, _) => nap.Value.Why!,
        ({ } value, { } low, { } high) when low == high => $"{WithSe(nap.Value, nap.Se)}; no pair overlaps, and the interval has no width: that is no certainty ({WaitWords.Rounded(value, Decimals)})",
        (_, { } low, { } high) => $"{WithSe(nap.Value, nap.Se)}, between {WaitWords.Rounded(low, Decimals)} and {WaitWords.Rounded(high, Decimals)}",
        _ => WithSe(nap.Value, nap.Se),
    };

    private static string Corrected(BaselineCorrectedTau tau) => tau.Value.Value is null ? tau.Value.Why! : WithSe(tau.Value, tau.Se);

    private static string Applies(BaselineCorrectedTau tau) => tau.Applies switch
    {
        null => "Tau once the trend before teaching is taken out.",
        true => $"Tau once the trend before teaching is taken out. That trend is there (p {WaitWords.P(tau.BaselineP.Value!.Value)}), so this is the form to use.",
        false => $"Tau once the trend before teaching is taken out. That trend may be chance (p {WaitWords.P(tau.BaselineP.Value!.Value)}), and Tarlow then uses the plain Tau.",
    };

    private static string TauU(Figure tau) => tau.Value is > 1 ? $"{Number(tau)}; this form may pass 1" : Number(tau);

    private static string Change(Figure ratio) => ratio.Value is { } log
        ? $"The mean during teaching is {WaitWords.Rounded(100 * Math.Abs(Math.Exp(log) - 1), 0)} percent {(log < 0 ? "lower" : "higher")} than before."
        : "How many times as large the mean during teaching is as before.";

    private static string WithSe(Figure value, Figure se) => se.Value is { } error ? $"{Number(value)}, standard error {WaitWords.Rounded(error, Decimals)}" : Number(value);

    private static string Number(Figure figure) => figure.Value is { } value ? WaitWords.Rounded(value, Decimals) : figure.Why!;

    private static string Share(Figure figure) => figure.Value is { } value ? WaitWords.Percent(value) : figure.Why!;
}
