using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Progress;

/// <summary>Notes that a goal is taught otherwise from a day on; the goal's chart draws it. Owners and the case manager note it.</summary>
public sealed class NoteTeachingChange(Portal portal)
{
    public sealed record Input
    {
        public int Goal { get; init; }
        public LocalDate? OnDay { get; init; }

        [StringLength(500, ErrorMessage = "Say in under 500 letters what changed.")]
        public string? Words { get; init; }
    }

    public sealed record Saved(int Goal, LocalDate OnDay);

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the goal is none of the caller's to write.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(NoteTeachingChange), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var goal = await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == caller.AgencyId && g.Id == input.Goal, stop);
        if (goal is null || !(await ChangeGoal.RightsAsync(db, caller, goal.LearnerId, goal.Id, stop)).Any)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. GoalChanges.Check(input.OnDay, input.Words, DateRange.Of(goal.FromDay, goal.ToDay), caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Add(new GoalChangeRow
        {
            AgencyId = goal.AgencyId,
            LearnerId = goal.LearnerId,
            GoalId = goal.Id,
            OnDay = input.OnDay!.Value,
            Kind = GoalChangeKind.Teaching,
            Words = input.Words!.Trim(),
        });
        return Outcome<Saved>.Of(new(goal.Id, input.OnDay.Value));
    }
}
