using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Notes that records were asked for where the learner came from: the reasonable steps of 34 CFR 300.323(g)(1).</summary>
public sealed class AskForRecords(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public string? What { get; init; }
        public string? OfWhom { get; init; }
        public LocalDate? AskedOn { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AskForRecords), input), async db =>
        {
            if (await db.MovesIn.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop) is not { } row)
                return Outcome<Saved>.Refused(Problem.NotFound);
            Problem[] problems = [.. MoveRules.CheckAsked(input.What, input.OfWhom, input.AskedOn, caller.Today)];
            if (problems.Length > 0)
                return Outcome<Saved>.Refused(problems);
            db.Add(new AskedRecordRow
            {
                AgencyId = caller.AgencyId,
                LearnerId = input.Learner,
                MoveInId = row.Id,
                What = input.What!.Trim(),
                OfWhom = input.OfWhom!.Trim(),
                AskedOn = input.AskedOn!.Value,
                AskedBy = caller.PersonId,
            });
            return Outcome<Saved>.Of(new(input.Learner));
        }, stop);
}
