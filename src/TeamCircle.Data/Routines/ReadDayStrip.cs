using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Routines;

/// <summary>Reads what to set out for a learner on a day: the routines of the day's visits in order, then those for home.</summary>
public sealed class ReadDayStrip(Portal portal, TimeProvider clock)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<DayStrip?> RunAsync(Caller caller, Scope scope, int learner, LocalDate day, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, caller, learner, day, stop), stop);

    private sealed record Planned(int Id, string Routine, string? Cue, LocalTime Start, int Minutes, string Provider);

    private async Task<DayStrip?> ReadAsync(PortalDb db, Caller caller, int learner, LocalDate day, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop);
        var visits = await (
            from v in db.Visits
            join r in db.VisitRoutines on new { v.AgencyId, v.LearnerId, VisitId = v.Id } equals new { r.AgencyId, r.LearnerId, r.VisitId }
            join routine in db.Routines on new { r.AgencyId, r.LearnerId, Id = r.RoutineId } equals new { routine.AgencyId, routine.LearnerId, routine.Id }
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            where v.AgencyId == agency && v.LearnerId == learner && v.OnDay == day && v.Live && v.TakesTime && v.State != VisitState.CalledOff
                && (routine.Live || routine.EndedOn > day)
            orderby v.StartTime, routine.Name
            select new Planned(routine.Id, routine.Name, routine.ObjectCue, v.StartTime, v.Minutes, p.Name)).ToListAsync(stop);
        var home = await (
            from h in db.HomePractice
            join routine in db.Routines on new { h.AgencyId, h.LearnerId, Id = h.RoutineId } equals new { routine.AgencyId, routine.LearnerId, routine.Id }
            where h.AgencyId == agency && h.LearnerId == learner && routine.Live && (h.OnDay == day || h.Weekday == day.DayOfWeek)
            orderby routine.Name
            select new { routine.Id, routine.Name, routine.ObjectCue, h.Who }).ToListAsync(stop);
        var pictures = await PicturesAsync(db, agency, [.. visits.Select(v => v.Id), .. home.Select(h => h.Id)], stop);
        var now = AgencyClock.Now(clock, zone);
        var next = visits.FindIndex(v => EndOf(day, v) > now);
        return new(learner, name, day, now.Date == day,
        [
            .. visits.Select((v, i) => new StripThing(v.Id, v.Routine, v.Cue, pictures.GetValueOrDefault(v.Id), v.Start, v.Provider, TimeOf(i, next, now.Date == day, now.Date > day))),
            .. home.Select(h => new StripThing(h.Id, h.Name, h.ObjectCue, pictures.GetValueOrDefault(h.Id), null, h.Who, now.Date > day ? StripTime.Past : StripTime.ToCome)),
        ]);
    }

    /// <summary>The first picture of each routine's object cue.</summary>
    private static async Task<Dictionary<int, PictureShown>> PicturesAsync(PortalDb db, int agency, int[] routines, CancellationToken stop) => (await db.RoutinePictures
            .Where(p => p.AgencyId == agency && routines.Contains(p.RoutineId) && p.Kind == PictureKind.Cue).OrderBy(p => p.Id)
            .Select(p => new { p.RoutineId, Picture = new PictureShown(p.Id, p.Kind, p.Width, p.Height, p.Words) }).ToListAsync(stop))
        .GroupBy(p => p.RoutineId).ToDictionary(g => g.Key, g => g.First().Picture);

    private static LocalDateTime EndOf(LocalDate day, Planned visit) => (day + visit.Start).PlusMinutes(visit.Minutes);

    private static StripTime TimeOf(int index, int next, bool isToday, bool isPast) =>
        isPast ? StripTime.Past
        : !isToday ? StripTime.ToCome
        : next < 0 || index < next ? StripTime.Past
        : index == next ? StripTime.Now : StripTime.ToCome;
}
