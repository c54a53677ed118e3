using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Calendar;

/// <summary>Reads a week of a learner, of a person, or of teams, in one snapshot; its visits with one query.</summary>
public sealed class ReadWeek(Portal portal)
{
    /// <summary>Null where the caller is not on the learner's team.</summary>
    public async Task<CalendarWeek?> RunAsync(Caller caller, Scope scope, WeekAsked asked, CancellationToken stop = default) =>
        asked.Learner is { } learner && !caller.OnTeam(learner)
            ? null
            : await portal.ReadAsync(scope, db => new Query(db, caller, asked).RunAsync(stop), stop);

    private sealed class Query(PortalDb db, Caller caller, WeekAsked asked)
    {
        private readonly int _agency = caller.AgencyId;
        private readonly List<int> _learners = [.. caller.Learners.Where(caller.OnTeam)];

        public async Task<CalendarWeek> RunAsync(CancellationToken stop)
        {
            var agency = await db.Agencies.SingleAsync(a => a.Id == _agency, stop);
            var first = (asked.Day ?? caller.Today).With(DateAdjusters.PreviousOrSame(agency.WeekStart));
            List<LocalDate> days = [.. Enumerable.Range(0, 7).Select(first.PlusDays)];
            var team = asked.Team ? await TeamAsync(first, days[^1], stop) : [];
            var visits = await VisitsAsync(first, days[^1], [.. team.Keys], stop);
            return new CalendarWeek(
                days, days.Where(agency.IsOrdinary).ToHashSet(), visits, await BusyAsync(agency.TimeZone, first, days[^1], team, visits, stop),
                await ClosuresAsync(first, days[^1], stop), await AwaysAsync(first, days[^1], stop),
                await RoutinesAsync([.. visits.Select(v => v.Id)], stop), await HomeAsync(days, stop), await LearnersAsync(stop))
            {
                Holds = await HoldFacts.AtVisitsAsync(
                    db, _agency, [.. visits.Where(v => v.State == VisitState.Planned && v.On >= caller.Today).Select(v => (v.Id, v.LearnerId))], stop),
            };
        }

        /// <summary>Who stands on the team at any time of the week, by name.</summary>
        private async Task<Dictionary<int, string>> TeamAsync(LocalDate first, LocalDate last, CancellationToken stop)
        {
            var learners = asked.Learner is { } one ? [one] : _learners;
            return await (
                from p in db.People
                where p.AgencyId == _agency && db.Relations.Any(r =>
                    r.AgencyId == p.AgencyId && r.PersonId == p.Id && learners.Contains(r.LearnerId) && r.FromDay <= last && (r.ToDay == null || r.ToDay >= first)
                    && r.Kind != Relation.Family && r.Kind != Relation.Reviewer)
                select new { p.Id, p.Name }).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        }

        private Task<List<WeekVisit>> VisitsAsync(LocalDate first, LocalDate last, List<int> team, CancellationToken stop)
        {
            var visits = db.Visits.Where(v => v.AgencyId == _agency && v.Live && v.OnDay >= first && v.OnDay <= last);
            visits = (asked.Learner, asked.Team) switch
            {
                (null, false) => visits.Where(v => v.ProviderId == caller.PersonId),
                (null, true) => visits.Where(v => _learners.Contains(v.LearnerId)),
                ({ } learner, false) => visits.Where(v => v.LearnerId == learner),
                ({ } learner, true) => visits.Where(v => v.LearnerId == learner || (_learners.Contains(v.LearnerId) && team.Contains(v.ProviderId))),
            };
            return Shown(visits).ToListAsync(stop);
        }

        private IQueryable<WeekVisit> Shown(IQueryable<VisitRow> visits) =>
            from v in visits
            join l in db.Learners on new { v.AgencyId, Id = v.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
            let logged = db.Sessions.Where(d => d.AgencyId == v.AgencyId && d.VisitId == v.Id && d.Live)
                .Select(d => new { Outcome = (VisitOutcome?)d.Outcome, d.Reason }).FirstOrDefault()
            orderby v.OnDay, v.StartTime, p.Name, l.Name
            select new WeekVisit(
                v.Id, v.OnDay, v.StartTime, v.Minutes, v.LearnerId, l.Name, v.Kind, s == null ? null : s.Discipline, v.ProviderId, p.Name,
                db.People.Where(x => x.AgencyId == v.AgencyId && x.Id == v.PartnerId).Select(x => x.Name).FirstOrDefault(), v.Place, v.PaysOn != null,
                v.State, v.AwayId != null && v.State == VisitState.CalledOff, logged.Outcome, v.CalledOff ?? logged.Reason, v.ExpectedStart)
            {
                Begins = v.During.LowerBound,
                OnClosedDay = v.OnClosedDay,
            };

        private sealed record Taken(int Provider, Instant Starts, Instant Ends, string? PlaceCode);

        /// <summary>What the database says about colleagues' other visits, without those that are shown anyhow.</summary>
        private async Task<IReadOnlyList<BusySpan>> BusyAsync(
            string zoneName, LocalDate first, LocalDate last, Dictionary<int, string> team, List<WeekVisit> visits, CancellationToken stop)
        {
            if (team.Count == 0)
                return [];
            var zone = DateTimeZoneProviders.Tzdb[zoneName];
            var (from, to) = (WallTime.Resolve(first.AtMidnight(), zone).ToInstant(), WallTime.Resolve(last.PlusDays(1).AtMidnight(), zone).ToInstant());
            int[] people = [.. team.Keys];
            var taken = await db.Database.SqlQuery<Taken>(
                $"select p.id as provider, b.starts, b.ends, b.place_code from unnest({people}) as p(id) cross join lateral portal.provider_busy(p.id, {from}, {to}) b")
                .ToListAsync(stop);
            var shown = visits.Select(v => (v.ProviderId, v.Begins, v.Minutes)).ToHashSet();
            return [.. taken.Where(t => !shown.Contains((t.Provider, t.Starts, (int)(t.Ends - t.Starts).TotalMinutes))).Distinct()
                .Select(t => Span(t, zone, team[t.Provider])).Where(b => b.On >= first && b.On <= last)
                .OrderBy(b => b.On).ThenBy(b => b.Start).ThenBy(b => b.Provider, StringComparer.Ordinal)];
        }

        private static BusySpan Span(Taken taken, DateTimeZone zone, string name)
        {
            var (start, end) = (taken.Starts.InZone(zone).LocalDateTime, taken.Ends.InZone(zone).LocalDateTime);
            return new(start.Date, start.TimeOfDay, end.Date == start.Date ? end.TimeOfDay : LocalTime.MaxValue, taken.Provider, name, taken.PlaceCode);
        }

        private Task<Dictionary<LocalDate, DayNamed>> ClosuresAsync(LocalDate first, LocalDate last, CancellationToken stop) =>
            db.Closures.Where(c => c.AgencyId == _agency && c.Live && c.OnDay >= first && c.OnDay <= last)
                .ToDictionaryAsync(c => c.OnDay, c => new DayNamed(c.Name, c.Kind), stop);

        private async Task<IReadOnlyList<AwaySpan>> AwaysAsync(LocalDate first, LocalDate last, CancellationToken stop) =>
            asked is not { Learner: { } learner, Team: false } ? []
            : await db.Aways.Where(a => a.AgencyId == _agency && a.LearnerId == learner && a.Live && a.FromDay <= last && (a.UntilDay == null || a.UntilDay >= first))
                .OrderBy(a => a.FromDay).Select(a => new AwaySpan(a.FromDay, a.UntilDay, a.Reason)).ToListAsync(stop);

        private async Task<ILookup<Guid, string>> RoutinesAsync(List<Guid> visits, CancellationToken stop) =>
            (await (
                from p in db.VisitRoutines
                join r in db.Routines on new { p.AgencyId, p.LearnerId, Id = p.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
                where p.AgencyId == _agency && visits.Contains(p.VisitId)
                orderby r.Name
                select new { p.VisitId, r.Name }).ToListAsync(stop)).ToLookup(r => r.VisitId, r => r.Name);

        private async Task<IReadOnlyList<HomeSpan>> HomeAsync(List<LocalDate> days, CancellationToken stop)
        {
            if (asked is not { Learner: { } learner, Team: false })
                return [];
            var (first, last) = (days[0], days[^1]);
            var rows = await (
                from h in db.HomePractice
                join r in db.Routines on new { h.AgencyId, h.LearnerId, Id = h.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
                where h.AgencyId == _agency && h.LearnerId == learner && r.Live && (h.OnDay == null || (h.OnDay >= first && h.OnDay <= last))
                select new { r.Name, h.Who, h.Weekday, h.OnDay }).ToListAsync(stop);
            return [.. rows.GroupBy(h => (h.Name, h.Who)).OrderBy(g => g.Key.Name, StringComparer.OrdinalIgnoreCase)
                .Select(g => new HomeSpan(g.Key.Name, g.Key.Who, [.. days.Where(d => g.Any(h => h.OnDay == d || h.Weekday == d.DayOfWeek))]))];
        }

        private Task<List<NamedId>> LearnersAsync(CancellationToken stop) =>
            db.Learners.Where(l => l.AgencyId == _agency && _learners.Contains(l.Id)).OrderBy(l => l.Name).Select(l => new NamedId(l.Id, l.Name)).ToListAsync(stop);
    }
}
