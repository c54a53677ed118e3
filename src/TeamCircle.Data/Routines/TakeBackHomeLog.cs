using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Takes back that a routine was practised at home; the row stays with the reason. What a family tapped is theirs to take back. To set something right, take it back and write it anew.</summary>
public sealed class TakeBackHomeLog(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Log { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public sealed record Saved(int Log);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(TakeBackHomeLog), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.HomeLogs.SingleOrDefaultAsync(h => h.AgencyId == caller.AgencyId && h.LearnerId == input.Learner && h.Id == input.Log && !h.ByFamily, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Why)));
        (row.Live, row.TakenBackReason) = (false, input.Why.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
