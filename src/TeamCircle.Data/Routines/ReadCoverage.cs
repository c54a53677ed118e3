using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Routines;

/// <summary>Reads which of a learner's routines were planned and practised in some weeks.</summary>
public sealed class ReadCoverage(Portal portal)
{
    /// <param name="day">A day of the last week.</param>
    /// <param name="weeks">How many weeks; 1 or more.</param>
    public Task<Coverage> RunAsync(Scope scope, int learner, LocalDate day, int weeks, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, learner, day, weeks, stop), stop);

    private sealed record Planned(int Routine, Guid Visit, LocalDate On, string Provider);

    private sealed record Practised(int[] Routines, Guid Visit, LocalDate On, string Provider);

    private static async Task<Coverage> ReadAsync(PortalDb db, int agency, int learner, LocalDate day, int weeks, CancellationToken stop)
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        var lastWeek = day.With(DateAdjusters.PreviousOrSame(row.WeekStart));
        var (first, last) = (lastWeek.PlusWeeks(1 - weeks), lastWeek.PlusDays(6));
        var zone = DateTimeZoneProviders.Tzdb[row.TimeZone];
        var planned = await PlannedAsync(db, agency, learner, first, last, stop);
        var practised = await PractisedAsync(db, agency, learner, first, last, stop);
        var home = await db.HomePractice
            .Where(h => h.AgencyId == agency && h.LearnerId == learner && (h.OnDay == null || (h.OnDay >= first && h.OnDay <= last))).ToListAsync(stop);
        var logs = await db.HomeLogs.Where(h => h.AgencyId == agency && h.LearnerId == learner && h.Answer == HomeAnswer.Done && h.OnDay >= first && h.OnDay <= last).OrderBy(h => h.Id).ToListAsync(stop);
        List<LocalDate> days = [.. Enumerable.Range(0, Period.DaysBetween(first, last) + 1).Select(first.PlusDays)];
        var routines = await db.Routines.Where(r => r.AgencyId == agency && r.LearnerId == learner && r.Live).OrderBy(r => r.Name).ToListAsync(stop);
        RoutineCoverage[] covered = [.. routines.Select(r => new RoutineCoverage(r.Id, r.Name, days
            .Select(day => (day, Cell: Cell(r.Id, day, planned, practised, [.. home.Where(h => h.RoutineId == r.Id && Begun(h, zone) <= day)], [.. logs.Where(h => h.RoutineId == r.Id && h.OnDay == day)]))).Where(c => c.Cell is not null).ToDictionary(c => c.day, c => c.Cell!)))];
        var shown = days.Where(d => row.IsOrdinary(d) || covered.Any(c => c.Cells.ContainsKey(d))).ToLookup(d => d.With(DateAdjusters.PreviousOrSame(row.WeekStart)));
        return new([.. Enumerable.Range(0, weeks).Select(first.PlusWeeks).Select(w => new CoverageWeek(w, [.. shown[w]]))], covered);
    }

    private static Task<List<Planned>> PlannedAsync(PortalDb db, int agency, int learner, LocalDate first, LocalDate last, CancellationToken stop) => (
        from r in db.VisitRoutines
        join v in db.Visits on new { r.AgencyId, r.LearnerId, Id = r.VisitId } equals new { v.AgencyId, v.LearnerId, v.Id }
        join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
        where v.AgencyId == agency && v.LearnerId == learner && v.Live && v.TakesTime && v.State != VisitState.CalledOff && v.OnDay >= first && v.OnDay <= last
        orderby v.StartTime
        select new Planned(r.RoutineId, v.Id, v.OnDay, p.Name)).ToListAsync(stop);

    private static Task<List<Practised>> PractisedAsync(PortalDb db, int agency, int learner, LocalDate first, LocalDate last, CancellationToken stop) => (
        from s in db.Sessions
        join p in db.People on new { s.AgencyId, Id = s.ProviderId } equals new { p.AgencyId, p.Id }
        where s.AgencyId == agency && s.LearnerId == learner && s.Live && s.Outcome == VisitOutcome.Given && s.Routines.Length > 0 && s.OnDay >= first && s.OnDay <= last
        orderby s.StartTime
        select new Practised(s.Routines, s.VisitId, s.OnDay, p.Name)).ToListAsync(stop);

    /// <summary>The day on which it was agreed: before it nobody was asked to practise.</summary>
    private static LocalDate Begun(HomePracticeRow home, DateTimeZone zone) => home.RecordedAt.InZone(zone).Date;

    private static CoverageCell? Cell(int routine, LocalDate day, List<Planned> planned, List<Practised> practised, List<HomePracticeRow> home, List<HomeLogRow> logs)
    {
        var done = practised.Where(p => p.On == day && p.Routines.Contains(routine)).ToList();
        var open = planned.Where(p => p.On == day && p.Routine == routine && !done.Exists(d => d.Visit == p.Visit)).Select(p => p.Provider).ToList();
        var atHome = logs.Count > 0 ? [] : home.Where(h => h.OnDay == day || h.Weekday == day.DayOfWeek).Select(h => h.Who ?? "").ToList();
        return done.Count + open.Count + atHome.Count + logs.Count == 0 ? null : new(open, [.. done.Select(d => d.Provider)], atHome, [.. logs.Select(h => h.Who)]);
    }
}
