using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>
/// Changes a goal: its case manager writes the statement and the target, its owners how it is measured, the criterion and
/// the short-term objectives. A part that the caller does not write is passed over, whatever was sent.
/// </summary>
public sealed class ChangeGoal(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Goal { get; set; }
        public int Version { get; set; }
        public GoalInput Parts { get; set; } = new();
    }

    public sealed record Saved(int Goal);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.OnTeam(input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner, "team of the learner"), Operation.Of(operation, nameof(ChangeGoal), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    internal static async Task<GoalRights> RightsAsync(PortalDb db, Caller caller, int learner, int goal, CancellationToken stop) =>
        new(caller.Manages(learner), caller.OnTeam(learner) && await db.GoalOwners.AnyAsync(o => o.AgencyId == caller.AgencyId && o.GoalId == goal
            && o.PersonId == caller.PersonId && o.FromDay <= caller.Today && caller.Today <= o.ToDay, stop));

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var rights = await RightsAsync(db, caller, input.Learner, input.Goal, stop);
        var goal = await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == caller.AgencyId && g.LearnerId == input.Learner && g.Id == input.Goal, stop);
        if (goal is null || !rights.Any)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. Problems(goal, rights, input.Parts).Select(p => p with { Field = $"Parts.{p.Field}" })];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Touch(goal, input.Version);
        if (rights.Statement)
            WriteStatement(db, goal, input.Parts, caller.Today);
        if (rights.Measure)
            await WriteMeasureAsync(db, goal, input.Parts, stop);
        return Outcome<Saved>.Of(new(goal.Id));
    }

    private static IEnumerable<Problem> Problems(GoalRow goal, GoalRights rights, GoalInput parts)
    {
        IEnumerable<Problem> problems =
        [
            .. rights.Statement ? GoalRules.Check(parts.StatementEntry, new(goal.FromDay, goal.ToDay)) : [],
            .. rights.Measure ? GoalRules.Check(parts.MeasureEntry) : [],
        ];
        foreach (var problem in problems)
            yield return problem;
        if (GoalRules.TargetProblem(rights.Statement ? parts.Target : goal.Target, rights.Measure ? parts.Measure : goal.Measure) is { } target)
            yield return rights.Statement ? target : new("Measure", "The goal's target does not fit this measure. Ask the case manager to change the target first.");
    }

    /// <summary>Another target than the one that stood is a dated change: the chart shows from when it held.</summary>
    private static void WriteStatement(PortalDb db, GoalRow goal, GoalInput parts, LocalDate today)
    {
        if (GoalChanges.OfTarget((goal.Target, goal.TargetDay), (parts.Target, parts.TargetDay)) is { } words)
            db.Add(new GoalChangeRow { AgencyId = goal.AgencyId, LearnerId = goal.LearnerId, GoalId = goal.Id, OnDay = today, Kind = GoalChangeKind.Target, Words = words });
        (goal.Area, goal.Statement, goal.Target, goal.TargetDay) =
            (parts.StatementEntry.Area!, parts.StatementEntry.Statement!, parts.Target, parts.TargetDay);
    }

    private static async Task WriteMeasureAsync(PortalDb db, GoalRow goal, GoalInput parts, CancellationToken stop)
    {
        goal.Take(parts);
        var standing = await db.Objectives.Where(o => o.AgencyId == goal.AgencyId && o.GoalId == goal.Id).OrderBy(o => o.Position).ToListAsync(stop);
        var written = AddGoal.Objectives(goal, parts).ToList();
        foreach (var row in standing.Where(row => !written.Exists(w => IsSame(row, w))))
            (row.Live, row.TakenBackReason) = (false, "The goal's owner wrote the objectives anew.");
        db.AddRange(written.Where(w => !standing.Exists(row => IsSame(row, w))));
    }

    private static bool IsSame(ObjectiveRow one, ObjectiveRow other) =>
        (one.Position, one.Statement, one.TargetDay) == (other.Position, other.Statement, other.TargetDay);
}
