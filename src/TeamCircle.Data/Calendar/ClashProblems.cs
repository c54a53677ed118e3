using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Calendar;

/// <summary>Clashes as a form shows them: what is refused beside the time, what can be confirmed beside the tick for it.</summary>
internal static class ClashProblems
{
    private const int MostListed = 6;

    /// <summary>Problems of one visit; none where nothing stands against it, or all of it was confirmed.</summary>
    public static IReadOnlyList<Problem> Of(IReadOnlyList<Clash> clashes, bool confirmed) =>
        [.. clashes.Where(c => c.IsRefused || !confirmed).Select(c => new Problem(c.IsRefused ? FieldOf(c.Kind) : nameof(VisitInput.Confirmed), c.Words))];

    /// <summary>The same for several days: the first clash of each, with its day; the first days of many.</summary>
    public static IReadOnlyList<Problem> OfDays(IReadOnlyList<Clash> clashes, string field)
    {
        var days = clashes.DistinctBy(c => c.On).ToList();
        List<Problem> problems = [.. days.Take(MostListed).Select(c => new Problem(field, $"{ClockWords.Weekday(c.On)}: {c.Words}"))];
        if (days.Count > MostListed)
            problems.Add(new(field, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"And {days.Count - MostListed} more days like these.")));
        return problems;
    }

    private static string FieldOf(ClashKind kind) =>
        kind is ClashKind.Away or ClashKind.OutsideService ? nameof(ScheduleVisit.Input.OnDay) : nameof(VisitInput.Start);
}
