using System.Globalization;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Web.Ui;

/// <summary>A forecast in words, never without what it rests on. For staff only.</summary>
public static class ForecastWords
{
    /// <summary>64 % likely as planned; 9 of the last 11 visits took place. Where not all is planned, what would lack on average.</summary>
    public static string Short(LineForecast forecast) => forecast.Forecast.Chance > 0
        ? $"{Percent(forecast.Forecast.Chance)} likely as planned; {Basis(forecast.Past)}"
        : $"about {Lacking(forecast)} would still lack as planned; {Basis(forecast.Past)}";

    /// <summary>The chance, what would lack on average, what it rests on and what it leaves out.</summary>
    public static string Long(LineForecast forecast)
    {
        var chance = forecast.Forecast.Chance > 0
            ? $"The chance that planned visits bring all minutes that lack is {Percent(forecast.Forecast.Chance)}"
            : "Planned visits cannot bring all minutes that lack";
        return $"{chance}; on average {Lacking(forecast)} would still lack. "
            + $"It rests on one thing: {Basis(forecast.Past)} (closures and days away left out). It is about minutes only, and for staff only.";
    }

    private static string Lacking(LineForecast forecast) => Say.Minutes((int)Math.Round(forecast.Forecast.ExpectedShort));

    /// <summary>9 of the last 11 visits took place.</summary>
    private static string Basis(PastVisits past) => $"{Say.Number(past.Given)} of the last {Say.Count(past.Planned, "visit")} took place";

    /// <summary>Whole percent; neither certain nor impossible unless it is.</summary>
    private static string Percent(double chance) => chance switch
    {
        < 0.01 => "less than 1 %",
        >= 1 => "100 %",
        > 0.99 => "more than 99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(100 * chance):0} %"),
    };
}
