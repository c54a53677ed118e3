using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>A stretch of days on which nobody is named for a service, and what came of it (docs/rules.md, part 18).</summary>
/// <remarks>
/// It says nothing about what is owed: that runs on, and a vacancy can be made up later like anything else. Both ends of a range belong to it.
/// Example: the last day of the one who left is Wednesday 7 October, the first visit after that is given on Monday 19 October. Then nobody gave
/// the service from 8 to 18 October: 11 days of the calendar, and the school days among them.
/// </remarks>
/// <param name="Unnamed">The days on which nobody is named, cut to the service's own days.</param>
/// <param name="Without">From the first of them to the day before the first visit that was given from then on, or up to the as-of day where none was yet.</param>
/// <param name="FirstGiven">The day of that visit; <see cref="Day.None"/> where none was given up to the as-of day.</param>
public readonly record struct Vacancy(DateRange Unnamed, DateRange Without, int FirstGiven)
{
    /// <summary>Whether a visit ended it.</summary>
    public bool IsServed => FirstGiven != Day.None;

    /// <summary>Days of the calendar without service; 0 where a visit was given on its first day.</summary>
    public int CalendarDays => Without.Length;

    /// <summary>The school days among <see cref="Without"/>: those on which the service could have been asked for, also where school closed without notice.</summary>
    public int SchoolDays(SchoolDays days) => days.Scheduled(Without);

    /// <summary>All vacancies of a service that had begun by a day, oldest first.</summary>
    /// <param name="dates">The service's first and last day.</param>
    /// <param name="named">The days of everybody who is named, in any order; they may overlap.</param>
    /// <param name="given">The days on which something was given, in any order: by whomever.</param>
    /// <param name="asOf">A vacancy that begins later is not counted yet; a visit of that day counts.</param>
    public static IReadOnlyList<Vacancy> Of(DateRange dates, IEnumerable<DateRange> named, IReadOnlyCollection<int> given, int asOf)
    {
        var vacancies = new List<Vacancy>();
        var next = dates.First;
        foreach (var days in named.Where(d => !d.IsEmpty).OrderBy(d => d.First).Append(new(dates.Last + 1, dates.Last + 1)))
        {
            if (days.First > next)
                Add(new(next, Math.Min(days.First - 1, dates.Last)));
            next = Math.Max(next, days.Last + 1);
        }
        return vacancies;

        void Add(DateRange unnamed)
        {
            if (unnamed.IsEmpty || unnamed.First > asOf)
                return;
            var first = given.Where(d => d >= unnamed.First && d <= asOf).DefaultIfEmpty(Day.None).Min();
            var last = first != Day.None ? first - 1 : Math.Min(asOf, dates.Last);
            vacancies.Add(new(unnamed, new(unnamed.First, last), first));
        }
    }
}
