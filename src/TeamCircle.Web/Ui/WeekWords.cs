using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Ui;

/// <summary>How a visit is said on a calendar, where what all of them share is left out.</summary>
/// <param name="Learner">The learner whose week it is; null where it is not one learner's.</param>
/// <param name="Team">Whether other people's visits are shown.</param>
/// <param name="Me">The reader's person.</param>
public sealed record WeekWords(int? Learner, bool Team, int Me)
{
    /// <summary>OF for Odalys Ferreira; of a single name its first letter.</summary>
    public static string Initials(string name)
    {
        var parts = name.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return parts.Length switch
        {
            0 => "",
            1 => parts[0][..1],
            _ => parts[0][..1] + parts[^1][..1],
        };
    }

    /// <summary>Wren Belmares, vision; in one learner's week: vision.</summary>
    public string What(WeekVisit visit)
    {
        var topic = Say.Within(Say.Visit(visit.Kind, visit.Discipline));
        return IsOfLearner(visit) ? Say.Begin(topic) : $"{visit.Learner}, {topic}";
    }

    /// <summary>Who comes, where, and what is special: Odalys Ferreira with Bram Nakamura, at home, make-up visit.</summary>
    public string Who(WeekVisit visit)
    {
        List<string> parts = [Say.Place(visit.Place)];
        if (Learner is not null || Team || visit.ProviderId != Me)
            parts.Insert(0, visit.Partner is null ? visit.Provider : $"{visit.Provider} with {visit.Partner}");
        else if (visit.Partner is not null)
            parts.Insert(0, $"with {visit.Partner}");
        if (visit.IsMakeUp)
            parts.Add("make-up visit");
        return string.Join(", ", parts);
    }

    /// <summary>planned; planned, no school that day; running late, expected at 9:20 am; given; called off: nobody home; not possible: learner in hospital.</summary>
    public static string Became(CalendarWeek week, WeekVisit visit)
    {
        if (week.StandsOnClosure(visit))
            return "planned, no school that day";
        if (visit.IsNotPossible)
            return visit.Reason is { } away ? $"not possible: {Say.Reason(away)}" : "not possible";
        if (visit.State == VisitState.Planned && visit.Expected is { } expected)
            return $"running late, expected at {Say.Time(expected)}";
        return Visits.Became(visit.State, visit.Outcome, visit.Reason);
    }

    /// <summary>What the day's heading adds to its name; null for an ordinary day.</summary>
    public static string? Day(CalendarWeek week, NodaTime.LocalDate day)
    {
        List<string> parts = [];
        if (week.Closures.GetValueOrDefault(day) is { } named)
            parts.Add(named.Kind == ClosureKind.Extra ? $"{named.Name} (extra day of school)" : $"Closed: {named.Name}");
        if (week.AwayOn(day) is { } away)
            parts.Add(Say.Begin($"away: {Core.Words.Of(away.Reason)}"));
        return parts.Count == 0 ? null : string.Join("; ", parts);
    }

    private bool IsOfLearner(WeekVisit visit) => Learner == visit.LearnerId && !Team;
}
