using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>A family takes back what it tapped itself.</summary>
public sealed class UndoHomeTap(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Tap { get; init; }
    }

    public sealed record Saved(int Tap);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(UndoHomeTap), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!caller.IsFamilyOf(input.Learner) || await ReadHomeTaps.Own(db, caller, input.Learner).SingleOrDefaultAsync(h => h.Id == input.Tap, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        (row.Live, row.TakenBackReason) = (false, "undone by the family");
        return Outcome<Saved>.Of(new(row.Id));
    }
}
