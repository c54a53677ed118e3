using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>How long a service has had nobody, or had nobody before somebody came, by <see cref="Vacancy"/>.</summary>
/// <param name="Since">The first day on which nobody was named.</param>
/// <param name="NamedAgain">The first day on which somebody is named again; null where nobody is so far.</param>
/// <param name="FirstVisit">The first visit that was given from <paramref name="Since"/> on; null where none was yet.</param>
/// <param name="CalendarDays">From <paramref name="Since"/> to the day before that visit, or up to the as-of day.</param>
/// <param name="SchoolDays">The school days among them.</param>
public sealed record DaysWithout(LocalDate Since, LocalDate? NamedAgain, LocalDate? FirstVisit, int CalendarDays, int SchoolDays)
{
    /// <summary>The latest vacancy that had begun by a day; null where there was none, and for probes.</summary>
    public static DaysWithout? Of(CommitmentFacts facts, int index, int asOf)
    {
        var line = facts.Lines[index];
        if (line.IsProbes || Vacancy.Of(line.Promise.Dates, line.Named.Select(n => n.Days), GivenDays(facts, index), asOf) is not { Count: > 0 } all)
            return null;
        var vacancy = all[^1];
        var again = vacancy.Unnamed.Last < line.Promise.Dates.Last ? Day.Date(vacancy.Unnamed.Last + 1) : (LocalDate?)null;
        return new(
            vacancy.Unnamed.Start, again, vacancy.IsServed ? Day.Date(vacancy.FirstGiven) : null, vacancy.CalendarDays,
            vacancy.SchoolDays(facts.Rules.Calendar.For(line.Promise.Terms)));
    }

    private static List<int> GivenDays(CommitmentFacts facts, int index)
    {
        var days = new List<int>();
        foreach (var entry in facts.Given(index))
        {
            if (entry.Amount > 0)
                days.Add(entry.Day);
        }
        return days;
    }
}
