using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Takes a learner's last day back, with all that it ended: the learner stays.</summary>
public sealed class TakeBackMoveOut(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(TakeBackMoveOut), input), async db =>
        {
            if (await db.MovesOut.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop) is not { } row)
                return Outcome<Saved>.Refused(Problem.NotFound);
            Problem[] problems = [.. LastDayRules.CheckWords(input.Reason)];
            if (problems.Length > 0)
                return Outcome<Saved>.Refused(problems);
            db.BeganOn(row, input.Version);
            (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
            await db.SaveChangesAsync(stop);
            return await BroughtBack.RunAsync(db, caller.AgencyId, row.Operation, input.Reason!.Trim(), stop) is { } problem
                ? Outcome<Saved>.Refused(problem) : Outcome<Saved>.Of(new(input.Learner));
        }, stop);
}
