using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Ui;

/// <summary>How series and what becomes of them are said.</summary>
public static class SeriesWords
{
    private const int MostNamed = 6;

    /// <summary>every week on Monday and Wednesday, 9:00 to 9:45 am, until 15 December 2026</summary>
    public static string Of(SeriesFacts series)
    {
        var until = series.EndsOn is { } last ? $"until {Say.Date(last)}" : "to the end of the plan";
        return $"{series.Cadence?.Words ?? $"by the rule {series.Rule}"}, {Say.Times(series.Start, series.Start.PlusMinutes(series.Minutes))}, {until}";
    }

    /// <summary>All that a reader has to know after a series was saved.</summary>
    public static string Saved(SeriesSaved saved)
    {
        List<string> sentences = [$"{Say.Count(saved.Written, "visit")} {(saved.Written == 1 ? "is" : "are")} scheduled."];
        if (Closed(saved.Closed) is { } closed)
            sentences.Add(closed);
        if (saved.LeftOut.Count > 0)
            sentences.Add($"Left out: {Days(saved.LeftOut)}.");
        if (saved.Away.Count > 0)
            sentences.Add($"Called off, because the learner is away: {Days(saved.Away)}.");
        if (Kept(saved.Kept) is { } kept)
            sentences.Add(kept);
        return string.Join(' ', sentences);
    }

    /// <summary>No visit on Thursday 26 November (Autumn break) and Friday 27 November; null where there is school on all days.</summary>
    public static string? Closed(IReadOnlyList<ClosedDay> days) => days.Count == 0 ? null
        : $"No visit on {List(days.Select(d => d.Name is null ? Say.ShortDay(d.OnDay) : $"{Say.ShortDay(d.OnDay)} ({d.Name})"))}.";

    public static string? Kept(IReadOnlyList<KeptVisit> kept) =>
        kept.Count == 0 ? null : $"Kept as they are, because they were changed by themselves or logged: {Days(kept.Select(k => k.OnDay))}.";

    /// <summary>What a time away did to the learner's visits.</summary>
    public static string Of(AwayEffect effect)
    {
        List<string> sentences = [];
        if (effect.CalledOff > 0)
            sentences.Add($"{Say.Count(effect.CalledOff, "visit")} {(effect.CalledOff == 1 ? "is" : "are")} called off. Nothing is decided about the minutes.");
        if (effect.Back > 0)
            sentences.Add($"{Say.Count(effect.Back, "visit")} {(effect.Back == 1 ? "is" : "are")} planned again.");
        if (effect.Lost.Count > 0)
            sentences.Add($"Their time was given to somebody else meanwhile: {Days(effect.Lost.Select(l => l.OnDay))}.");
        return string.Join(' ', sentences);
    }

    private static string Days(IEnumerable<NodaTime.LocalDate> days) => List(days.Select(Say.ShortDay));

    private static string List(IEnumerable<string> parts)
    {
        var all = parts.ToList();
        return all.Count <= MostNamed ? Say.List(all) : $"{string.Join(", ", all.Take(MostNamed))} and {all.Count - MostNamed} more";
    }
}
