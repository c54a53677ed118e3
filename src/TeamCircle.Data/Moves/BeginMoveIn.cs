using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Notes that a learner came with a plan from elsewhere, or sets right what was noted.</summary>
public sealed class BeginMoveIn(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public string? FromWhere { get; init; }
        public bool OtherState { get; init; }
        public LocalDate? FirstDay { get; init; }

        /// <summary>Null where nothing is noted yet.</summary>
        public int? Version { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(BeginMoveIn), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        Problem[] problems = [.. MoveRules.CheckIn(input.FromWhere, input.FirstDay)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = await db.MovesIn.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop);
        if ((row is null) != (input.Version is null))
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        if (row is { Status: not MoveInStatus.Comparable })
            return Outcome<Saved>.Refused("", "What became of that plan is decided: it stays as it was noted.");
        if (row is null)
            db.Add(row = new MoveInRow { AgencyId = caller.AgencyId, LearnerId = input.Learner, FromWhere = "", EnteredBy = caller.PersonId });
        else
            db.BeganOn(row, input.Version!.Value);
        (row.FromWhere, row.OtherState, row.FirstDay) = (input.FromWhere!.Trim(), input.OtherState, input.FirstDay!.Value);
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
