using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Takes back the words of one service that were copied wrongly, or that were named beside the wrong service of ours.</summary>
public sealed class TakeBackComparable(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Row { get; init; }
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(TakeBackComparable), input), async db =>
        {
            if (await db.MoveInServices.SingleOrDefaultAsync(s => s.AgencyId == caller.AgencyId && s.LearnerId == input.Learner && s.Id == input.Row, stop) is not { } row)
                return Outcome<Saved>.Refused(Problem.NotFound);
            Problem[] problems = [.. LastDayRules.CheckWords(input.Reason)];
            if (problems.Length > 0)
                return Outcome<Saved>.Refused(problems);
            db.BeganOn(row, input.Version);
            (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
            return Outcome<Saved>.Of(new(input.Learner));
        }, stop);
}
