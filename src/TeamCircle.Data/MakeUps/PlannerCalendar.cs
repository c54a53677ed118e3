using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.MakeUps;

/// <summary>Hours, times away and visits of some people and learners on the days on which visits can be proposed.</summary>
internal sealed class PlannerCalendar(PortalDb db, int agency, string zone, IReadOnlyList<int> days)
{
    private sealed record Taken(Instant Starts, Instant Ends, string? PlaceCode);

    private LocalDate First => Day.Date(days[0]);

    private LocalDate Last => Day.Date(days[^1]);

    /// <summary>When people work and how much a day; those of whom nobody entered hours, at assumed ones.</summary>
    public async Task<(List<Availability> Hours, List<int> Assumed)> ProvidersAsync(IReadOnlyCollection<int> people, CancellationToken stop)
    {
        var rows = (await db.WorkingHours.Where(h => h.AgencyId == agency && people.Contains(h.PersonId) && h.Live).ToListAsync(stop))
            .ToLookup(h => h.PersonId, h => new Span(h.Weekday, h.FromTime, h.ToTime, h.FromDay, h.ToDay));
        var limits = await db.People.Where(p => p.AgencyId == agency && people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.MostMinutesADay, stop);
        return ([.. people.Select(p => new Availability($"{p}", Hours(rows[p], _ => false), limits.GetValueOrDefault(p)))], [.. people.Where(p => !rows[p].Any())]);
    }

    /// <summary>When learners can be visited and how much a day; never while they are away.</summary>
    public async Task<(List<Availability> Hours, List<int> Assumed)> LearnersAsync(IReadOnlyCollection<int> learners, CancellationToken stop)
    {
        var rows = (await db.OpenHours.Where(h => h.AgencyId == agency && learners.Contains(h.LearnerId) && h.Live).ToListAsync(stop))
            .ToLookup(h => h.LearnerId, h => new Span(h.Weekday, h.FromTime, h.ToTime, h.FromDay, h.ToDay));
        var aways = (await db.Aways.Where(a => a.AgencyId == agency && learners.Contains(a.LearnerId) && a.Live).ToListAsync(stop)).ToLookup(a => a.LearnerId);
        var limits = await db.Learners.Where(l => l.AgencyId == agency && learners.Contains(l.Id)).ToDictionaryAsync(l => l.Id, l => l.MostMinutesADay, stop);
        return (
            [.. learners.Select(l => new Availability(
                $"{l}", Hours(rows[l], day => aways[l].Any(a => a.FromDay <= day && (a.UntilDay is null || a.UntilDay >= day))), limits[l]))],
            [.. learners.Where(l => !rows[l].Any())]);
    }

    /// <summary>Visits of the learners, and when the providers are taken by others.</summary>
    public async Task<List<BusyVisit>> BusyAsync(IReadOnlyCollection<int> people, PlannerPlaces places, CancellationToken stop)
    {
        if (days.Count == 0)
            return [];
        var visits = await db.Visits.AsNoTracking()
            .Where(v => v.AgencyId == agency && v.OnDay >= First && v.OnDay <= Last && v.Live && v.TakesTime && v.State != VisitState.CalledOff).ToListAsync(stop);
        var busy = visits.Select(v => new BusyVisit(
            v.ServiceId is { } service ? $"{service}" : null, $"{v.ProviderId}", v.LearnersTime ? $"{v.LearnerId}" : null, places.Of(v),
            Time(v.OnDay, v.StartTime, v.Minutes))).ToList();
        var known = visits.Select(v => (v.ProviderId, v.During.LowerBound, v.During.UpperBound)).ToHashSet();
        foreach (var person in people)
            busy.AddRange((await TakenAsync(person, stop)).Where(t => !known.Contains((person, t.Starts, t.Ends))).Select((t, i) => Elsewhere(person, i, t)));
        return busy;
    }

    private Task<List<Taken>> TakenAsync(int person, CancellationToken stop)
    {
        var at = DateTimeZoneProviders.Tzdb[zone];
        var (from, to) = (WallTime.Resolve(First.AtMidnight(), at).ToInstant(), WallTime.Resolve(Last.PlusDays(1).AtMidnight(), at).ToInstant());
        return db.Database.SqlQuery<Taken>($"select starts, ends, place_code from portal.provider_busy({person}, {from}, {to})").ToListAsync(stop);
    }

    private BusyVisit Elsewhere(int person, int index, Taken taken)
    {
        var start = taken.Starts.InZone(DateTimeZoneProviders.Tzdb[zone]).LocalDateTime;
        var minutes = (int)(taken.Ends - taken.Starts).TotalMinutes;
        return new(null, $"{person}", null, taken.PlaceCode ?? $"(unknown {person}.{index})", Time(start.Date, start.TimeOfDay, minutes));
    }

    private static DayTime Time(LocalDate day, LocalTime start, int minutes)
    {
        var from = (start.Hour * 60) + start.Minute;
        return new(Day.Of(day), from, Math.Min(DayTime.MinutesOfADay, from + minutes));
    }

    private List<DayTime> Hours(IEnumerable<Span> spans, Func<LocalDate, bool> isAway)
    {
        var hours = new List<DayTime>();
        foreach (var day in days.Select(Day.Date).Where(d => !isAway(d)))
        {
            hours.AddRange(spans.Any() ? spans.Where(s => s.Holds(day)).Select(s => Between(day, s.From, s.To)) : [Between(day, MakeUpAssumed.From, MakeUpAssumed.To)]);
        }
        return hours;
    }

    private static DayTime Between(LocalDate day, LocalTime from, LocalTime to) =>
        new(Day.Of(day), (from.Hour * 60) + from.Minute, (to.Hour * 60) + to.Minute);

    private sealed record Span(IsoDayOfWeek Weekday, LocalTime From, LocalTime To, LocalDate FromDay, LocalDate? ToDay)
    {
        public bool Holds(LocalDate day) => day.DayOfWeek == Weekday && FromDay <= day && (ToDay is null || ToDay >= day);
    }
}
