using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Routines;

/// <summary>Reads a learner's routines with where they are planned.</summary>
public sealed class ReadRoutines(Portal portal)
{
    /// <summary>How far ahead visits are offered and looked at.</summary>
    internal const int DaysAhead = 28;

    /// <summary>Team members and the case manager write routines; substitutes and assistants read them.</summary>
    internal static bool MayWrite(Caller caller, int learner) => caller.IsStaff && (caller.Stands(learner, Relation.Team) || caller.Manages(learner));

    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<RoutinesPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller, learner).RunAsync(stop), stop);

    private sealed record Upcoming(Guid Id, int? Series, LocalDate On, LocalTime Start, VisitKind Kind, Discipline? Discipline, string Provider);

    private sealed class Query(PortalDb db, Caller caller, int learner)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<RoutinesPage?> RunAsync(CancellationToken stop)
        {
            if (await db.Learners.Where(l => l.AgencyId == _agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
                return null;
            var visits = await VisitsAsync(stop);
            var planned = await PlannedAsync([.. visits.Select(v => v.Id)], stop);
            var home = (await db.HomePractice
                .Where(h => h.AgencyId == _agency && h.LearnerId == learner && (h.OnDay == null || h.OnDay >= caller.Today))
                .OrderBy(h => h.OnDay).Select(h => new { h.RoutineId, Day = new HomeDay(h.Weekday, h.OnDay, h.Who) }).ToListAsync(stop)).ToLookup(h => h.RoutineId, h => h.Day);
            var all = await db.Routines.Where(r => r.AgencyId == _agency && r.LearnerId == learner).OrderBy(r => r.Name).ToListAsync(stop);
            var routines = all.Where(r => r.Live).ToList();
            var cards = (await CardFacts.NewestAsync(db, _agency, [.. routines.Select(r => r.Id)], caller.Today, stop)).ToDictionary(c => c.Routine);
            return new(learner, name, MayWrite(caller, learner),
                [.. routines.Select(r => new RoutineShown(r.Id, r.Name, r.ObjectCue, r.Place, planned[r.Id].ToHashSet(), [.. home[r.Id].OrderBy(d => d.Weekday)], cards.GetValueOrDefault(r.Id)?.Review.State))],
                Slots(visits), [.. all.Where(r => r.EndedOn is not null).Select(r => new EndedRoutine(r.Id, r.Name, r.EndedOn!.Value))]);
        }

        private Task<List<Upcoming>> VisitsAsync(CancellationToken stop)
        {
            var last = caller.Today.PlusDays(DaysAhead);
            return (
                from v in db.Visits
                join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
                from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
                where v.AgencyId == _agency && v.LearnerId == learner && v.Live && v.State == VisitState.Planned && v.OnDay >= caller.Today && v.OnDay <= last
                orderby v.OnDay, v.StartTime
                select new Upcoming(v.Id, v.SeriesId, v.OnDay, v.StartTime, v.Kind, s == null ? null : s.Discipline, p.Name)).ToListAsync(stop);
        }

        /// <summary>The keys of the slots by routine: a series where its visits begin with it, a visit on its own where it has it.</summary>
        private async Task<ILookup<int, string>> PlannedAsync(List<Guid> visits, CancellationToken stop)
        {
            var series = await db.SeriesRoutines.Where(s => s.AgencyId == _agency && s.LearnerId == learner).Select(s => new { s.RoutineId, s.SeriesId }).ToListAsync(stop);
            var single = await (
                from r in db.VisitRoutines
                join v in db.Visits on new { r.AgencyId, r.LearnerId, Id = r.VisitId } equals new { v.AgencyId, v.LearnerId, v.Id }
                where r.AgencyId == _agency && r.LearnerId == learner && visits.Contains(r.VisitId) && v.SeriesId == null
                select new { r.RoutineId, r.VisitId }).ToListAsync(stop);
            return series.Select(s => (s.RoutineId, Key: $"s{s.SeriesId}")).Concat(single.Select(v => (v.RoutineId, Key: $"v{v.VisitId}"))).ToLookup(p => p.RoutineId, p => p.Key);
        }

        private static IReadOnlyList<PracticeSlot> Slots(List<Upcoming> visits) =>
            [.. visits.GroupBy(v => v.Series is { } series ? $"s{series}" : $"v{v.Id}").Select(group =>
            {
                var first = group.First();
                return new PracticeSlot(
                    first.Series, first.Series is null ? first.Id : null, [.. group.Select(v => v.On)], first.Start, first.Kind, first.Discipline, first.Provider);
            })];
    }
}
