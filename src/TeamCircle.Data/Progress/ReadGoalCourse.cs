using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Progress;

/// <summary>Reads what a goal's own page shows, in one snapshot and at most ten statements.</summary>
public sealed class ReadGoalCourse(Portal portal)
{
    /// <summary>Null where the scope reaches no such goal.</summary>
    public Task<GoalCoursePage?> RunAsync(Scope scope, Caller caller, int goal, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller, goal).RunAsync(stop), stop);

    private sealed record Head(
        GoalRow Goal, string Learner, LocalDate PlanStart, LocalDate PlanEnd, List<ProbesAsked> Asked, List<GoalOwner> Owners, List<Objective> Objectives, List<GoalChange> Noted);

    private sealed class Query(PortalDb db, Caller caller, int id)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<GoalCoursePage?> RunAsync(CancellationToken stop)
        {
            if (await HeadAsync(stop) is not { } head)
                return null;
            var (goal, learner) = (head.Goal, head.Goal.LearnerId);
            var rules = await AgencyRules.ReadAsync(db, _agency, stop);
            var zone = DateTimeZoneProviders.Tzdb[rules.Agency.TimeZone];
            var probes = await ProbesOnRecord.ReadAsync(db, caller, id, zone, stop);
            var away = await db.Aways.Where(a => a.AgencyId == _agency && a.LearnerId == learner && a.Live)
                .Select(a => new { a.FromDay, a.UntilDay }).ToListAsync(stop);
            var derived = await ReadGoalChanges.OfRoutinesAsync(db, _agency, learner, id, zone, stop);
            var dates = DateRange.Of(goal.FromDay, goal.ToDay);
            return new(
                id, learner, head.Learner, goal.Area, goal.Statement, goal.Target, goal.TargetDay, new GoalTerms().Take(goal), goal.FromDay, goal.ToDay,
                head.Asked, head.Owners, head.Objectives, [.. head.Noted.Concat(derived).OrderBy(c => c.OnDay)], probes, [.. Missing(head, rules, probes)],
                Breaks.Of(rules.Calendar, [.. away.Select(a => DateRange.Of(a.FromDay, a.UntilDay ?? caller.Today))], dates), caller.Today,
                RecordRules.MayRecord(caller, learner, caller.PersonId), new(caller.Manages(learner), IsOwner(head, learner)))
            {
                Outages = [.. (await ReadThings.OfGoalAsync(db, _agency, learner, id, caller.Today, stop)).Where(o => o.From <= goal.ToDay && o.Until >= goal.FromDay)],
            };
        }

        private bool IsOwner(Head head, int learner) => caller.OnTeam(learner)
            && head.Owners.Any(o => o.PersonId == caller.PersonId && o.FromDay <= caller.Today && caller.Today <= o.ToDay);

        private Task<Head?> HeadAsync(CancellationToken stop) => (
            from g in db.Goals
            join l in db.Learners on new { g.AgencyId, Id = g.LearnerId } equals new { l.AgencyId, l.Id }
            join plan in db.Plans on new { g.AgencyId, Id = g.PlanId } equals new { plan.AgencyId, plan.Id }
            where g.AgencyId == _agency && g.Id == id
            select new Head(
                g, l.Name, plan.StartDay, plan.EndDay,
                db.ProbeCommitments.Where(c => c.AgencyId == g.AgencyId && c.GoalId == g.Id).OrderBy(c => c.FromDay)
                    .Select(c => new ProbesAsked(c.FromDay, c.Probes, new Every(c.EveryUnit, c.EveryCount), c.ByEach)).ToList(),
                db.GoalOwners.Where(o => o.AgencyId == g.AgencyId && o.GoalId == g.Id).OrderBy(o => o.Position).ThenBy(o => o.FromDay)
                    .Join(db.People, o => new { o.AgencyId, Id = o.PersonId }, p => new { p.AgencyId, p.Id }, (o, p) => new GoalOwner(p.Id, p.Name, o.FromDay, o.ToDay)).ToList(),
                db.Objectives.Where(o => o.AgencyId == g.AgencyId && o.GoalId == g.Id).OrderBy(o => o.Position)
                    .Select(o => new Objective(o.Statement, o.TargetDay)).ToList(),
                db.GoalChanges.Where(c => c.AgencyId == g.AgencyId && c.GoalId == g.Id).OrderBy(c => c.OnDay).ThenBy(c => c.Id)
                    .Join(db.People, c => new { c.AgencyId, Id = c.RecordedBy }, p => new { p.AgencyId, p.Id }, (c, p) => new GoalChange(c.Id, c.OnDay, c.Kind, c.Words, null, p.Name, false)).ToList()))
            .SingleOrDefaultAsync(stop);

        /// <summary>Windows that closed before today and hold no probe of whom it was asked, though one was promised on the day they closed.</summary>
        private IEnumerable<MissingProbe> Missing(Head head, AgencyRules rules, IReadOnlyList<ProbeOnRecord> probes)
        {
            var lines = new List<CommitmentLine>();
            var planned = new PlannedGoal(
                id, head.Goal.LearnerId, head.Goal.Code, head.Goal.Position, head.Goal.Area, DateRange.Of(head.Goal.FromDay, head.Goal.ToDay), DateRange.Of(head.PlanStart, head.PlanEnd));
            new GoalLines(new(rules.Windows()), lines).Add(
                planned, [.. head.Asked.Select(a => new ProbeVersion(new(Day.Of(a.FromDay), a.Probes), a.Every, a.ByEach))],
                [.. head.Owners.Select(o => new Named(o.PersonId, DateRange.Of(o.FromDay, o.ToDay)))]);
            var taken = probes.Where(p => p.Live && p.Kind == ProbeKind.Probe).ToList();
            return lines.SelectMany(line => Passed(line)
                .Where(w => !taken.Exists(p => (line.OwnerId ?? p.Provider.Id) == p.Provider.Id && w.Days.Holds(Day.Of(p.PaysOn ?? p.OnDay))))
                .Select(w => new MissingProbe(w.Active.Start, w.Active.End, head.Owners.Find(o => o.PersonId == line.OwnerId)?.Name))).OrderBy(m => m.From);
        }

        private IEnumerable<Window> Passed(CommitmentLine line)
        {
            var today = Day.Of(caller.Today);
            return line.Windows.All.ToArray().Where(w => w.IsActive && w.Closes < today && line.Promise.On(w.Closes).Quantity > 0);
        }
    }
}
