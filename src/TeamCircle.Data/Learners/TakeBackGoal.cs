using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Takes back a goal that was entered by mistake and has no probe yet; its rows stay with the reason.</summary>
public sealed class TakeBackGoal(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Goal { get; set; }
        public int Version { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(TakeBackGoal), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == agency && g.LearnerId == input.Learner && g.Id == input.Goal, stop) is not { } goal)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Reason)));
        if (await db.Probes.AnyAsync(p => p.AgencyId == agency && p.GoalId == goal.Id && p.Live, stop)
            || await db.Decisions.AnyAsync(d => d.AgencyId == agency && d.GoalId == goal.Id && d.Live, stop))
            return Outcome<Saved>.Refused("", "Probes or decisions stand on this goal, so it can't be taken back. Ask for no more probes instead.");
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(goal.FromDay, goal.ToDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(goal, input.Version);
        List<ITakenBackRow> rows =
        [
            goal,
            .. await db.ProbeCommitments.Where(c => c.AgencyId == agency && c.GoalId == goal.Id).ToListAsync(stop),
            .. await db.GoalOwners.Where(o => o.AgencyId == agency && o.GoalId == goal.Id).ToListAsync(stop),
            .. await db.GoalChanges.Where(c => c.AgencyId == agency && c.GoalId == goal.Id).ToListAsync(stop),
            .. await db.Objectives.Where(o => o.AgencyId == agency && o.GoalId == goal.Id).ToListAsync(stop),
        ];
        rows.ForEach(row => (row.Live, row.TakenBackReason) = (false, input.Reason.Trim()));
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
