using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Calendar;

/// <summary>A day of a series on which there is no visit, and the closure's name where that is why.</summary>
public sealed record ClosedDay(LocalDate OnDay, string? Name);

/// <summary>What the occurrences of a series become, day by day.</summary>
/// <param name="Stands">Visits to be written.</param>
/// <param name="Closed">No school: left out.</param>
/// <param name="Away">The learner is away: written as called off.</param>
/// <param name="Refused">Something stands against them: left out where a person says so.</param>
/// <param name="ToConfirm">What a person may confirm.</param>
internal sealed record SeriesPlan(
    IReadOnlyList<LocalDate> Stands, IReadOnlyList<ClosedDay> Closed, IReadOnlyList<LocalDate> Away,
    IReadOnlyList<Clash> Refused, IReadOnlyList<Clash> ToConfirm)
{
    public IEnumerable<LocalDate> LeftOut => Refused.Select(c => c.On).Distinct();

    public static SeriesPlan Of(IEnumerable<LocalDate> occurrences, DayBook book)
    {
        var (stands, closed, away) = (new List<LocalDate>(), new List<ClosedDay>(), new List<LocalDate>());
        var (refused, confirm) = (new List<Clash>(), new List<Clash>());
        foreach (var day in occurrences)
        {
            Clash[] clashes = [.. book.Clashes(day).Where(c => c.Kind is not (ClashKind.Away or ClashKind.ClosedDay))];
            if (!book.IsSchoolDay(day))
                closed.Add(new(day, book.ClosedBy(day)));
            else if (book.AwayOn(day) is not null)
                away.Add(day);
            else if (clashes.Any(c => c.IsRefused))
                refused.AddRange(clashes.Where(c => c.IsRefused));
            else
            {
                stands.Add(day);
                confirm.AddRange(clashes);
            }
        }
        return new(stands, closed, away, refused, confirm);
    }

    /// <summary>The days of a rule's occurrences; series hold one a day at most.</summary>
    public static IReadOnlyList<LocalDate> Occurrences(SeriesRow series, LocalDate from, LocalDate to) =>
        [.. Recurrence.Read(series.Rule).Value!
            .Starts(series.FirstDay + series.StartTime, DateTimeZoneProviders.Tzdb[series.Zone], from, to).Select(s => s.Date)];

    /// <summary>The last day up to which a series is written: its own end, the service's or the plan's, or 400 days on.</summary>
    public static async Task<LocalDate> ReachAsync(PortalDb db, VisitSpec spec, LocalDate firstDay, LocalDate? endsOn, LocalDate today, CancellationToken stop)
    {
        var last = endsOn is { } own ? LocalDate.Min(own, today.PlusDays(CalendarRules.MostDaysAhead)) : today.PlusDays(CalendarRules.MostDaysAhead);
        if (spec.Service is { } service)
            return LocalDate.Min(last, service.ToDay);
        var plan = await db.Plans.Where(p => p.AgencyId == spec.Agency && p.LearnerId == spec.Learner.Id && p.EndDay >= firstDay)
            .OrderBy(p => p.EndDay).Select(p => (LocalDate?)p.EndDay).FirstOrDefaultAsync(stop);
        return plan is { } end ? LocalDate.Min(last, end) : last;
    }
}
