using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Writes what the team tells those who teach the learner next: what works, and what does not.</summary>
public sealed class WriteTransfer(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Version { get; init; }
        public string? Works { get; init; }
        public string? WorksNot { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(WriteTransfer), input), async db =>
        {
            if (await db.MovesOut.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop) is not { } row)
                return Outcome<Saved>.Refused(Problem.NotFound);
            Problem[] problems = [.. MoveRules.CheckWriting(input.Works, input.WorksNot)];
            if (problems.Length > 0)
                return Outcome<Saved>.Refused(problems);
            db.BeganOn(row, input.Version);
            (row.Works, row.WorksNot) = (input.Works!.Trim(), string.IsNullOrWhiteSpace(input.WorksNot) ? null : input.WorksNot.Trim());
            return Outcome<Saved>.Of(new(input.Learner));
        }, stop);
}
