using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Learners;

/// <summary>Adds a goal to a plan, with its owners, its short-term objectives and the probes that it asks for.</summary>
public sealed class AddGoal(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Plan { get; set; }

        /// <summary>Empty: made from the learner's code.</summary>
        public string? Code { get; set; }
        public LocalDate? FromDay { get; set; }
        public LocalDate? ToDay { get; set; }
        public List<int> Owners { get; set; } = [];
        public GoalInput Goal { get; set; } = new();
        public ProbesInput Probes { get; set; } = new();
    }

    public sealed record Saved(int Goal);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AddGoal), input),
            db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (await db.Plans.SingleOrDefaultAsync(p => p.AgencyId == agency && p.LearnerId == input.Learner && p.Id == input.Plan, stop) is not { } plan)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var givers = await ReadStaff.GiversAsync(db, agency, caller.Today, stop);
        Problem[] problems = [.. Problems(input, new(plan.StartDay, plan.EndDay), givers.Select(p => p.Id).ToHashSet())];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var (from, to) = (input.FromDay!.Value, input.ToDay!.Value);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(from, to)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        var goal = await RowAsync(db, agency, input, stop);
        db.Add(goal);
        await db.SaveChangesAsync(stop);
        db.Add(input.Probes.Row(goal, from));
        foreach (var (position, owner) in input.Owners.Distinct().Index())
        {
            db.Add(new GoalOwnerRow { AgencyId = agency, LearnerId = input.Learner, GoalId = goal.Id, PersonId = owner, Position = position, FromDay = from, ToDay = to });
            await AssignProvider.JoinTeamAsync(db, caller, input.Learner, new(owner, from, to), stop);
        }
        db.AddRange(Objectives(goal, input.Goal));
        return Outcome<Saved>.Of(new(goal.Id));
    }

    private static IEnumerable<Problem> Problems(Input input, PlanDates plan, HashSet<int> givers)
    {
        IEnumerable<Problem> problems =
        [
            .. GoalRules.Check(input.Goal.StatementEntry, plan).Concat(GoalRules.Check(input.Goal.MeasureEntry)).Select(p => p with { Field = $"Goal.{p.Field}" }),
            .. GoalRules.Check(input.Probes.Entry).Select(p => p with { Field = $"Probes.{p.Field}" }),
            .. GoalRules.CheckDates(input.FromDay, input.ToDay, plan),
        ];
        foreach (var problem in problems)
            yield return problem;
        if (GoalRules.TargetProblem(input.Goal.Target, input.Goal.Measure) is { } target)
            yield return target with { Field = $"Goal.{target.Field}" };
        if (input.Owners.Exists(o => !givers.Contains(o)))
            yield return new("Owners", "Choose people who give services in this agency.");
    }

    internal static IEnumerable<ObjectiveRow> Objectives(GoalRow goal, GoalInput input) =>
        input.ObjectivesInOrder.Select((o, position) => new ObjectiveRow
        {
            AgencyId = goal.AgencyId,
            LearnerId = goal.LearnerId,
            GoalId = goal.Id,
            Position = position,
            Statement = o.Statement!.Trim(),
            TargetDay = o.TargetDay,
        });

    private static async Task<GoalRow> RowAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var before = await db.Goals.IgnoreQueryFilters().Where(g => g.AgencyId == agency && g.LearnerId == input.Learner)
            .Select(g => g.Position).ToListAsync(stop);
        var learner = await db.Learners.Where(l => l.AgencyId == agency && l.Id == input.Learner).Select(l => l.Code).SingleAsync(stop);
        var row = new GoalRow
        {
            AgencyId = agency,
            LearnerId = input.Learner,
            PlanId = input.Plan,
            Code = string.IsNullOrWhiteSpace(input.Code) ? $"{learner}-G{before.Count + 1}" : input.Code.Trim(),
            Position = before.DefaultIfEmpty().Max() + 1,
            Area = input.Goal.StatementEntry.Area!,
            Statement = input.Goal.StatementEntry.Statement!,
            Target = input.Goal.Target,
            TargetDay = input.Goal.TargetDay,
            FromDay = input.FromDay!.Value,
            ToDay = input.ToDay!.Value,
        };
        row.Take(input.Goal);
        return row;
    }
}
