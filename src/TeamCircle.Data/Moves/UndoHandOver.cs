using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Takes back that a learner was handed over, with all that the act changed, until the successor begins.</summary>
public sealed class UndoHandOver(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int HandOver { get; init; }
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Learner, int Person);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(UndoHandOver), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.LearnerHandOvers.SingleOrDefaultAsync(h => h.AgencyId == caller.AgencyId && h.LearnerId == input.Learner && h.Id == input.HandOver && h.UndoneAt == null, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (!LastDayRules.MayUndo(row.FromDay, caller.Today))
            return Outcome<Saved>.Refused("", "The successor has begun. Change what is to be otherwise by itself.");
        Problem[] problems = [.. LastDayRules.CheckWords(input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.UndoneAt, row.UndoneBy, row.UndoneReason) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId, input.Reason!.Trim());
        await db.SaveChangesAsync(stop);
        return await BroughtBack.RunAsync(db, caller.AgencyId, row.Operation, input.Reason!.Trim(), stop) is { } problem
            ? Outcome<Saved>.Refused(problem) : Outcome<Saved>.Of(new(row.LearnerId, row.PersonId));
    }
}
