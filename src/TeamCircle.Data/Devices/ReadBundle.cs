using System.Data;
using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Things;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.History;
using TeamCircle.Data.People;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Devices;

/// <summary>Reads what a device may keep: what the caller's visits of today and tomorrow need. It leaves a record of access before it is given.</summary>
public sealed class ReadBundle(Portal portal, TimeProvider clock)
{
    public static readonly Duration Kept = Duration.FromDays(7);

    /// <summary>Null where the device is none of the caller's, or was revoked.</summary>
    public async Task<Bundle?> RunAsync(Caller caller, Guid device, CancellationToken stop = default)
    {
        await using var work = await portal.OpenAsync(Scope.Of(caller), IsolationLevel.RepeatableRead, stop: stop);
        if (!await work.Db.Devices.AnyAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId && d.Id == device && d.RevokedAt == null, stop))
            return null;
        caller = await QuietLearners.LeaveOutAsync(work.Db, caller, stop);
        var bundle = await new Query(work.Db, caller, Instant.FromDateTimeOffset(clock.GetUtcNow())).RunAsync(stop);
        work.Db.Accesses.Add(new AccessRow
        {
            AgencyId = caller.AgencyId,
            PersonId = caller.PersonId,
            Address = caller.Address,
            Ground = "own visits of today and tomorrow, on a device",
            Page = "GET /device/bundle",
            LearnerIds = [.. bundle.Learners.Select(l => l.Id)],
        });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return bundle;
    }

    private sealed class Query(PortalDb db, Caller caller, Instant now)
    {
        private readonly int _agency = caller.AgencyId;
        private Dictionary<int, ShortCode> _codes = [];

        public async Task<Bundle> RunAsync(CancellationToken stop)
        {
            var tomorrow = caller.Today.PlusDays(1);
            var standsIn = await StandsInAsync(tomorrow, stop);
            var visits = (await VisitsAsync(tomorrow, stop)).Where(v => caller.OnTeam(v.Learner) && (!caller.StandsIn(v.Learner) || standsIn[v.Learner].Any(r => r.Holds(v.Day)))).ToList();
            var ids = visits.Select(v => v.Learner).Distinct().ToList();
            _codes = await db.Learners.Where(l => l.AgencyId == _agency && ids.Contains(l.Id)).ToDictionaryAsync(l => l.Id, l => new ShortCode(l.Name, l.Code), stop);
            var zone = await db.Agencies.Where(a => a.Id == _agency).Select(a => a.TimeZone).SingleAsync(stop);
            return new(now, Expires(standsIn, ids, tomorrow, zone), caller.Today, tomorrow, zone, await LearnersAsync(ids, stop), visits, await ServicesAsync(ids, stop), await RoutinesAsync(ids, stop), await GoalsAsync(ids, stop));
        }

        /// <summary>The days on which the person stands in, by learner.</summary>
        private async Task<ILookup<int, StandingDates>> StandsInAsync(LocalDate tomorrow, CancellationToken stop) => !caller.Learners.Any(caller.StandsIn)
            ? Array.Empty<StandingDates>().ToLookup(_ => 0)
            : (await NewPeople.Of(db, _agency).Where(r => r.PersonId == caller.PersonId && r.FromDay <= tomorrow && r.ToDay >= caller.Today).ToListAsync(stop))
                .ToLookup(r => r.LearnerId, AddTeamMember.Dates);

        /// <summary>After seven days; where somebody stands in, with the first of these days that is the last: no device keeps a learner whom they may not reach.</summary>
        private Instant Expires(ILookup<int, StandingDates> standsIn, List<int> learners, LocalDate tomorrow, string zone)
        {
            var days = learners.Where(caller.StandsIn).Select(l => standsIn[l].Any(r => r.Holds(tomorrow)) ? tomorrow : caller.Today).ToList();
            return days.Count == 0 ? now + Kept : days.Min().PlusDays(1).AtStartOfDayInZone(DateTimeZoneProviders.Tzdb[zone]).ToInstant();
        }

        private async Task<List<BundleVisit>> VisitsAsync(LocalDate tomorrow, CancellationToken stop)
        {
            var visits = await (
                from v in db.Visits.AsNoTracking()
                from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
                where v.AgencyId == _agency && v.ProviderId == caller.PersonId && v.Live && v.State == VisitState.Planned && v.OnDay >= caller.Today && v.OnDay <= tomorrow
                orderby v.OnDay, v.StartTime
                select new { Visit = v, Discipline = s == null ? (Discipline?)null : s.Discipline }).ToListAsync(stop);
            var ids = visits.Select(v => v.Visit.Id).ToList();
            var routines = (await db.VisitRoutines.Where(r => r.AgencyId == _agency && ids.Contains(r.VisitId)).ToListAsync(stop)).ToLookup(r => r.VisitId, r => r.RoutineId);
            return [.. visits.Select(v => new BundleVisit(
                v.Visit.Id, v.Visit.LearnerId, v.Visit.OnDay, v.Visit.StartTime.ToString("HH:mm", CultureInfo.InvariantCulture), v.Visit.Minutes, Words.Of(v.Visit.Place),
                v.Discipline is { } discipline ? Words.Of(discipline) : Words.Of(v.Visit.Kind), v.Visit.ServiceId, v.Visit.Version, [.. routines[v.Visit.Id].Order()]))];
        }

        private async Task<IReadOnlyList<BundleService>> ServicesAsync(List<int> ids, CancellationToken stop) => [.. (await ReadServiceChoices.RunningAsync(db, caller, [.. ids], stop))
            .Select(s => new BundleService(s.Id, s.LearnerId, Words.Of(s.Discipline), s.IsMine))];

        private async Task<IReadOnlyList<BundleLearner>> LearnersAsync(List<int> ids, CancellationToken stop)
        {
            var parts = (await db.TeachParts.Where(p => p.AgencyId == _agency && ids.Contains(p.LearnerId)).OrderBy(p => p.Part).ToListAsync(stop)).ToLookup(p => p.LearnerId);
            var unread = await ReadFirst.UnreadAsync(db, caller, stop);
            return [.. ids.Select(id => new BundleLearner(
                id, _codes[id].Code,
                [.. parts[id].Where(p => p.Part is TeachPart.Cautions or TeachPart.HealthPlan).OrderByDescending(p => p.Part).SelectMany(p => _codes[id].In(p.Text).Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))],
                [.. parts[id].Where(p => HowWeTeach.IsSignal(p.Part)).OrderBy(p => p.Part).Select(p => new BundleSignal(Words.Of(p.Part)["signal ".Length..], _codes[id].In(p.Text)))],
                [.. parts[id].Where(p => !HowWeTeach.IsSignal(p.Part)).OrderBy(p => p.Part).Select(p => new BundleSignal(Words.Of(p.Part), _codes[id].In(p.Text)))], unread.Contains(id)))];
        }

        private async Task<IReadOnlyList<BundleRoutine>> RoutinesAsync(List<int> ids, CancellationToken stop)
        {
            var routines = await db.Routines.AsNoTracking().Where(r => r.AgencyId == _agency && ids.Contains(r.LearnerId) && r.Live).OrderBy(r => r.Name).ToListAsync(stop);
            var routineIds = routines.Select(r => r.Id).ToList();
            var cards = (await CardFacts.NewestAsync(db, _agency, routineIds, caller.Today, stop)).ToDictionary(c => c.Routine);
            var pictures = (await db.RoutinePictures.Where(p => p.AgencyId == _agency && routineIds.Contains(p.RoutineId)).OrderBy(p => p.Id)
                .Select(p => new { p.RoutineId, p.Id, p.Kind, p.Words }).ToListAsync(stop)).ToLookup(p => p.RoutineId);
            var things = await ReadThings.OutAsync(db, _agency, ids, caller.Today, stop);
            var seen = await SeeCautions.SeenAsync(db, _agency, caller.PersonId, routineIds, stop);
            return [.. routines.Where(r => cards.ContainsKey(r.Id)).Select(r => (Routine: r, Card: cards[r.Id])).Select(r => new BundleRoutine(
                r.Card.Routine, r.Card.Learner, _codes[r.Card.Learner].In(r.Routine.Name), new(r.Card.VersionId, r.Card.Number), Content(r.Card),
                new(r.Card.Review.State, r.Card.By?.By, r.Card.Review.Review?.On, r.Card.Review.Until),
                CautionMarks.Of(r.Card.Content) is { } mark && seen[r.Card.Routine].Contains(mark) ? r.Card.VersionId : null,
                [.. pictures[r.Card.Routine].Select(p => new BundlePicture(p.Id, JsonNamingPolicy.CamelCase.ConvertName(p.Kind.ToString()), _codes[r.Card.Learner].In(p.Words)))])
            {
                Out = [.. things[r.Card.Routine].Select(o => _codes[r.Card.Learner].In($"{ThingSentences.Out(o.Name, o.Outage)} {ThingSentences.Meanwhile(o.Outage, o.Loaner)}".TrimEnd()))],
            })];
        }

        private JsonElement Content(StandingCard card)
        {
            using var json = JsonDocument.Parse(_codes[card.Learner].In(card.Content.Write()));
            return json.RootElement.Clone();
        }

        private async Task<IReadOnlyList<BundleGoal>> GoalsAsync(List<int> ids, CancellationToken stop)
        {
            var goals = await db.Goals.AsNoTracking()
                .Where(g => g.AgencyId == _agency && ids.Contains(g.LearnerId) && g.FromDay <= caller.Today && g.ToDay >= caller.Today)
                .OrderBy(g => g.LearnerId).ThenBy(g => g.Position).ToListAsync(stop);
            return [.. goals.Select(g => new BundleGoal(g.Id, g.LearnerId, g.Code, _codes[g.LearnerId].In(g.Statement), g.Measure))];
        }
    }
}
