using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Learners;

/// <summary>Reads what a learner's page shows, in one snapshot.</summary>
public sealed class ReadLearner(Portal portal)
{
    /// <summary>How far ahead the page lists visits.</summary>
    private const int DaysAhead = 14;

    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<LearnerPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller, learner).RunAsync(stop), stop);

    /// <summary>The learner's name for a page that is about one part of the record; null where the scope reaches no such learner.</summary>
    public Task<string?> NameAsync(Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner)
            .Select(l => (string?)l.Name).SingleOrDefaultAsync(stop), stop);

    private sealed class Query(PortalDb db, Caller caller, int learner)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<LearnerPage?> RunAsync(CancellationToken stop)
        {
            var found = await db.Learners.Where(l => l.AgencyId == _agency && l.Id == learner).Select(l => new
            {
                Row = l,
                LastDay = db.MovesOut.Where(m => m.AgencyId == _agency && m.LearnerId == learner).Select(m => (LocalDate?)m.LastDay).FirstOrDefault(),
                Since = db.MovesIn.Where(m => m.AgencyId == _agency && m.LearnerId == learner && m.Status == MoveInStatus.Comparable).Select(m => (LocalDate?)m.FirstDay).FirstOrDefault(),
            }).SingleOrDefaultAsync(stop);
            if (found is not { Row: var row })
                return null;
            var all = new Together(db);
            var (ofPlan, parts, team) = (PlanAsync(all), PartsAsync(all), TeamAsync(all));
            var services = ServicesAsync(all, ofPlan);
            await all.RunAsync(stop, ofPlan, parts, team, services);
            var plan = await ofPlan;
            return new LearnerPage(
                row.Id, row.Code, row.Name, row.MostMinutesADay, plan is null ? null : new DateInterval(plan.StartDay, plan.EndDay), await parts,
                await services, plan is null ? [] : await GoalsAsync(plan.Id, stop), await team, await VisitsAsync(stop), await RoutinesAsync(stop))
            {
                LastDay = found.LastDay,
                ComparableSince = found.Since,
                Holds = [.. (await HoldFacts.ReadAsync(db, _agency, [learner], ended: false, stop))[learner]],
                QuietSince = await QuietLearners.SinceAsync(db, _agency, learner, stop),
                Things = await ReadThings.OfLearnerAsync(db, _agency, learner, stop),
                RecordHolds = await ReadRecordHolds.AllAsync(db, caller, learner, ended: false, stop),
            };
        }

        private async Task<IReadOnlyList<RoutineNamed>> RoutinesAsync(CancellationToken stop)
        {
            var routines = await db.Routines.Where(r => r.AgencyId == _agency && r.LearnerId == learner && r.Live).OrderBy(r => r.Name)
                .Select(r => new { r.Id, r.Name, r.ObjectCue }).ToListAsync(stop);
            var cards = (await CardFacts.NewestAsync(db, _agency, [.. routines.Select(r => r.Id)], caller.Today, stop)).ToDictionary(c => c.Routine);
            return [.. routines.Select(r => new RoutineNamed(r.Id, r.Name, r.ObjectCue, cards.GetValueOrDefault(r.Id)?.Review.State))];
        }

        private async Task<PlanRow?> PlanAsync(Together all)
        {
            var plans = await all.ListAsync(db.Plans.Where(p => p.AgencyId == _agency && p.LearnerId == learner).OrderBy(p => p.StartDay));
            return plans.LastOrDefault(p => p.StartDay <= caller.Today && caller.Today <= p.EndDay)
                ?? plans.FirstOrDefault(p => p.StartDay > caller.Today) ?? plans.LastOrDefault();
        }

        private async Task<IReadOnlyList<PartShown>> PartsAsync(Together all)
        {
            var parts = all.ListAsync(
                from p in db.TeachParts
                join who in db.People on new { p.AgencyId, Id = p.WrittenBy } equals new { who.AgencyId, who.Id }
                where p.AgencyId == _agency && p.LearnerId == learner
                select new { p.Part, p.Owner, p.Text, p.WrittenOn, who.Name });
            var own = all.ListAsync(db.PersonDisciplines.Where(d => d.AgencyId == _agency && d.PersonId == caller.PersonId).Select(d => new { d.Discipline }));
            var (written, qualified) = ((await parts).ToDictionary(p => p.Part), (await own).Select(d => d.Discipline).ToHashSet());
            return [.. Enum.GetValues<TeachPart>().Select(part =>
            {
                var row = written.GetValueOrDefault(part);
                var owner = row is null ? HowWeTeach.UsualOwner(part) : row.Owner;
                var may = MayWriteHere && HowWeTeach.MayWrite(owner, qualified, caller.Manages(learner));
                return new PartShown(part, owner, row?.Text, row?.WrittenOn, row?.Name, may);
            })];
        }

        private bool MayWriteHere => caller.Stands(learner, Relation.Team) || caller.Manages(learner);

        private async Task<IReadOnlyList<ServiceShown>> ServicesAsync(Together all, Task<PlanRow?> ofPlan)
        {
            var amounts = all.ListAsync(db.ServiceVersions.Where(v => v.AgencyId == _agency && v.LearnerId == learner).OrderBy(v => v.FromDay));
            var people = all.ListAsync(
                from a in db.Assignments
                join p in db.People on new { a.AgencyId, Id = a.PersonId } equals new { p.AgencyId, p.Id }
                where a.AgencyId == _agency && a.LearnerId == learner
                orderby a.FromDay, p.Name
                select new { a.ServiceId, p.Name, a.FromDay, a.ToDay });
            if (await ofPlan is not { Id: var plan })
                return [];
            var services = await all.ListAsync(db.Services.Where(s => s.AgencyId == _agency && s.LearnerId == learner && s.PlanId == plan).OrderBy(s => s.Position).ThenBy(s => s.Id));
            var versions = (await amounts).ToLookup(v => v.ServiceId, v => new AmountShown(v.FromDay, v.Quantity, v.QuantityTo, v.Sessions, v.PlanWords, v.PlanPage, v.Reason));
            var assigned = (await people).ToLookup(a => a.ServiceId, a => new PersonDates(a.Name, a.FromDay, a.ToDay));
            return [.. services.Select(s => new ServiceShown(
                s.Id, s.Discipline, s.Kind, s.Place, s.Format, s.Terms, s.CoTreatment, s.ShortWindow, new Every(s.EveryUnit, s.EveryCount),
                s.FromDay, s.ToDay, s.Wording, s.EndReason, [.. versions[s.Id]], [.. assigned[s.Id]]))];
        }

        private async Task<IReadOnlyList<GoalShown>> GoalsAsync(int plan, CancellationToken stop)
        {
            var goals = await db.Goals.Where(g => g.AgencyId == _agency && g.LearnerId == learner && g.PlanId == plan)
                .OrderBy(g => g.Position).ThenBy(g => g.Id)
                .Select(g => new
                {
                    Row = g,
                    Asked = db.ProbeCommitments.Where(c => c.AgencyId == g.AgencyId && c.GoalId == g.Id).OrderBy(c => c.FromDay).ToList(),
                    Owners = db.GoalOwners.Where(o => o.AgencyId == g.AgencyId && o.GoalId == g.Id).OrderBy(o => o.Position).ThenBy(o => o.FromDay)
                        .Join(db.People, o => new { o.AgencyId, Id = o.PersonId }, p => new { p.AgencyId, p.Id }, (o, p) => new PersonDates(p.Name, o.FromDay, o.ToDay)).ToList(),
                    Objectives = db.Objectives.Where(o => o.AgencyId == g.AgencyId && o.GoalId == g.Id).OrderBy(o => o.Position)
                        .Select(o => new ObjectiveShown(o.Statement, o.TargetDay)).ToList(),
                }).ToListAsync(stop);
            var points = (await db.Probes.Where(p => p.AgencyId == _agency && p.LearnerId == learner && p.Live).OrderBy(p => p.OnDay)
                .Select(p => new { p.GoalId, Point = new StripPoint(p.OnDay, p.Value, p.Opportunities, p.Kind) }).ToListAsync(stop))
                .ToLookup(p => p.GoalId, p => p.Point);
            return [.. goals.Select(g => new GoalShown(
                g.Row.Id, g.Row.Area, g.Row.Statement, g.Row.Target, g.Row.TargetDay, new GoalTerms().Take(g.Row), g.Row.FromDay, g.Row.ToDay,
                AskedOf(g.Asked), g.Owners, g.Objectives, [.. points[g.Row.Id]]))];
        }

        private ProbesAsked? AskedOf(List<ProbeCommitmentRow> commitments) =>
            (commitments.LastOrDefault(c => c.FromDay <= caller.Today) ?? commitments.FirstOrDefault()) is { Probes: > 0 } row
                ? new ProbesAsked(row.Probes, new Every(row.EveryUnit, row.EveryCount), row.ByEach) : null;

        private async Task<IReadOnlyList<MemberShown>> TeamAsync(Together all)
        {
            var members = await all.ListAsync(
                from r in db.Relations
                join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
                where r.AgencyId == _agency && r.LearnerId == learner && (r.ToDay == null || r.ToDay >= caller.Today)
                orderby p.Name
                select new { p.Id, p.Name, r.Kind, r.FromDay, r.ToDay });
            var ids = members.Select(m => m.Id).Distinct().ToList();
            var disciplines = (await all.ListAsync(db.PersonDisciplines.Where(d => d.AgencyId == _agency && ids.Contains(d.PersonId))))
                .ToLookup(d => d.PersonId, d => d.Discipline);
            return [.. members.OrderBy(m => m.Kind is Relation.Family).ThenBy(m => m.Kind is not Relation.CaseManager)
                .Select(m => new MemberShown(m.Id, m.Name, m.Kind, [.. disciplines[m.Id].Order()], m.FromDay, m.ToDay))];
        }

        private async Task<IReadOnlyList<VisitShown>> VisitsAsync(CancellationToken stop)
        {
            var last = caller.Today.PlusDays(DaysAhead - 1);
            return await (
                from v in db.Visits
                from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
                join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
                where v.AgencyId == _agency && v.LearnerId == learner && v.Live && v.OnDay >= caller.Today && v.OnDay <= last
                orderby v.OnDay, v.StartTime
                select new VisitShown(v.Id, v.OnDay, v.StartTime, v.Minutes, v.Kind, s == null ? null : s.Discipline, p.Name, v.Place, v.PaysOn != null, v.State, v.CalledOff)
                {
                    Routines = db.VisitRoutines.Where(r => r.AgencyId == v.AgencyId && r.LearnerId == v.LearnerId && r.VisitId == v.Id)
                        .Join(db.Routines.Where(r => r.Live || r.EndedOn > v.OnDay), r => new { r.AgencyId, Id = r.RoutineId }, r => new { r.AgencyId, r.Id }, (_, r) => r.Name).OrderBy(n => n).ToList(),
                })
                .ToListAsync(stop);
        }
    }
}
