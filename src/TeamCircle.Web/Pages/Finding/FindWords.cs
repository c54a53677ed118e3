using NodaTime;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Finding;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Finding;

/// <summary>How what was found is said.</summary>
public static class FindWords
{
    /// <summary>2 learners, 1 goal; nothing found.</summary>
    public static string Count(Found found)
    {
        List<(int Count, string One)> kinds =
        [
            (found.Learners.Items.Count, "learner"), (found.People.Items.Count, "person"), (found.Visits.Items.Count, "visit"),
            (found.Goals.Items.Count, "goal"), (found.Routines.Items.Count, "routine"),
        ];
        return found.IsEmpty ? "Nothing found." : $"Found: {Say.List([.. kinds.Where(k => k.Count > 0).Select(k => k is { One: "person", Count: > 1 } ? $"{k.Count} people" : Say.Count(k.Count, k.One))])}.";
    }

    /// <summary>What was looked for and where, so that the reader knows what to type instead.</summary>
    public static string Nothing(IndexModel page)
    {
        var where = page.OfAgency ? "among the names of the agency, or on your own teams" : "on your teams";
        var day = page.Sought.Day is { } on ? $" {Say.Weekday(on)} {on.Year} was read as the day of a visit." : "";
        return $"Nothing like that is found {where}.{day} Try fewer letters, or another part of the name.";
    }

    /// <summary>Under a list: nearly so, or more than are shown; null where neither.</summary>
    public static string? Note<T>(FoundList<T> list) => (list.AreNear, list.More) switch
    {
        (true, _) => "Nothing is spelled just so. These come near.",
        (false, true) => "More fit. Type another word or more letters.",
        _ => null,
    };

    /// <summary>Visits on Saturday 12 September 2026</summary>
    public static string Visits(LocalDate day) => $"Visits on {Say.Weekday(day)} {day.Year}";

    /// <summary>Vision, Odalys Ferreira, called off</summary>
    public static string Visit(FoundVisit visit)
    {
        List<string> parts = [Say.Visit(visit.Kind, visit.Discipline), visit.Provider];
        parts.Add(visit.State switch { VisitState.Planned => "planned", VisitState.Logged => "logged", _ => "called off" });
        return string.Join(", ", parts);
    }
}
