using TeamCircle.Core.Practice;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>What was written down over time, in words and as bars; both from the same rows.</summary>
public static class OverTimeWords
{
    /// <summary>–, where nobody said.</summary>
    public static string Said(IReadOnlyList<string> texts) => texts.Count == 0 ? "–" : string.Join("; ", texts);

    /// <summary>–, where nobody counted.</summary>
    public static string Count(int? count) => count is { } n ? Say.Number(n) : "–";

    /// <summary>One bar a day: minutes in all positions.</summary>
    public static IReadOnlyList<DayBar> Minutes(IReadOnlyList<PositionDay> days) =>
        [.. days.Where(d => d.Minutes is not null).GroupBy(d => d.Day).OrderBy(g => g.Key).Select(g => new DayBar(g.Key, g.Sum(d => d.Minutes!.Value), 0))];

    /// <summary>One bar a day: hits, and above them closures that nobody asked for.</summary>
    public static IReadOnlyList<DayBar> Closures(IReadOnlyList<SwitchDay> days) =>
        [.. days.GroupBy(d => d.Day).OrderBy(g => g.Key).Select(g => new DayBar(g.Key, g.Sum(d => d.Hits ?? 0), g.Sum(d => d.Unasked)))];
}
