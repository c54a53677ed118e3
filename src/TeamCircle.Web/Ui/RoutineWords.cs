using NodaTime;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Ui;

/// <summary>Where and when a routine is practised, in words.</summary>
public static class RoutineWords
{
    /// <summary>Mon 5 Oct and Thu 8 Oct; a single day in full.</summary>
    public static string Days(IReadOnlyList<LocalDate> days) => days.Count == 1 ? Say.Weekday(days[0]) : Say.List([.. days.Select(Say.ShortDay)]);

    /// <summary>Mondays and Thursdays, 9:30 am: vision, Odalys Ferreira; of a visit on its own its date.</summary>
    public static string Of(PracticeSlot slot)
    {
        var days = slot.Series is null ? Say.ShortDay(slot.Days[0]) : Say.List([.. slot.Days.Select(d => d.DayOfWeek).Distinct().Order().Select(d => $"{d}s")]);
        return $"{days}, {Say.Time(slot.Start)}: {Say.Within(Say.Visit(slot.Kind, slot.Discipline))}, {slot.Provider}";
    }

    /// <summary>What the people at home said.</summary>
    public static string Of(HomeAnswer answer) => answer switch
    {
        HomeAnswer.Done => "they did it",
        HomeAnswer.NotUpToIt => "not up to it",
        _ => "skipped",
    };

    /// <summary>What a list of routines says of a card and its review; null where there is nothing to say.</summary>
    public static string? Of(ReviewState? review) => review switch
    {
        null => "No card is written yet",
        ReviewState.Missing => "Not reviewed, do not practise",
        ReviewState.Due => "The review of its card runs out soon",
        _ => null,
    };

    /// <summary>At home: Mondays and Thursdays (Ines); null where nothing is agreed.</summary>
    public static string? Home(IReadOnlyList<HomeDay> home)
    {
        var spans = home.GroupBy(h => h.Who).Select(g =>
            $"{Say.List([.. g.Select(h => h.OnDay is { } day ? Say.ShortDay(day) : $"{h.Weekday}s")])}{(g.Key is { } who ? $" ({who})" : "")}").ToList();
        return spans.Count == 0 ? null : $"At home: {string.Join("; ", spans)}";
    }

    /// <summary>What became of a routine on a day or in some days, by whom: practised OF, BN; practised at home, her mother; planned PL; home Ines. Empty for nothing.</summary>
    public static IEnumerable<(string Mark, string Words)> Cell(IReadOnlyCollection<CoverageCell> cells)
    {
        List<string> practised = [.. cells.SelectMany(c => c.Practised).Distinct()], planned = [.. cells.SelectMany(c => c.Planned).Distinct()];
        List<string> told = [.. cells.SelectMany(c => c.PractisedAtHome).Distinct()];
        List<string> home = [.. cells.SelectMany(c => c.Home).Distinct()];
        if (practised.Count > 0)
            yield return ("full", $"practised {Initials(practised, cells.Sum(c => c.Practised.Count))}");
        if (told.Count > 0)
            yield return ("full", $"practised at home, {Times(Say.List(told), cells.Sum(c => c.PractisedAtHome.Count))}");
        if (planned.Count > 0)
            yield return ("open", $"planned {Initials(planned, cells.Sum(c => c.Planned.Count))}");
        if (home.Count > 0)
            yield return ("home", string.Join(' ', ["home", .. home.Where(h => h.Length > 0)]));
    }

    private static string Initials(List<string> names, int times)
    {
        return Times(string.Join(", ", names.Select(WeekWords.Initials)), times);
    }

    private static string Times(string who, int times) => times > 1 ? $"{times} times, {who}" : who;
}
