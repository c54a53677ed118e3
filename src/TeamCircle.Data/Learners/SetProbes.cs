using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Changes from a day on how many probes a goal asks for; 0 asks for none.</summary>
public sealed class SetProbes(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Goal { get; set; }
        public int Version { get; set; }
        public LocalDate? FromDay { get; set; }
        public ProbesInput Probes { get; set; } = new();
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Goal);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(SetProbes), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop, input.Reason);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == agency && g.LearnerId == input.Learner && g.Id == input.Goal, stop) is not { } goal)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. Problems(goal, input)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(input.FromDay!.Value, goal.ToDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(goal, input.Version);
        if (await db.ProbeCommitments.SingleOrDefaultAsync(c => c.AgencyId == agency && c.GoalId == goal.Id && c.FromDay == input.FromDay, stop) is { } replaced)
        {
            (replaced.Live, replaced.TakenBackReason) = (false, input.Reason!.Trim());
            await db.SaveChangesAsync(stop); // the old row gives up its day first
        }
        db.Add(input.Probes.Row(goal, input.FromDay.Value));
        return Outcome<Saved>.Of(new(goal.Id));
    }

    private static IEnumerable<Problem> Problems(GoalRow goal, Input input)
    {
        foreach (var problem in GoalRules.Check(input.Probes.Entry))
            yield return problem with { Field = $"Probes.{problem.Field}" };
        if (input.FromDay is not { } from || from < goal.FromDay || from > goal.ToDay)
            yield return new("FromDay", "Give a day within the goal's dates.");
        if (string.IsNullOrWhiteSpace(input.Reason))
            yield return new("Reason", "Say why it changes.");
    }
}
