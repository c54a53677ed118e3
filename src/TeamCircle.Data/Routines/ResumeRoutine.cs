using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Takes back that a routine ended: it goes on where it was planned.</summary>
public sealed class ResumeRoutine(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }
        public int Version { get; init; }
    }

    public sealed record Saved(int Routine);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(ResumeRoutine), input), (db, row) => WorkAsync(db, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, RoutineRow routine, Input input, CancellationToken stop)
    {
        if (routine.Live)
            return Outcome<Saved>.Refused("", "This routine goes on already.");
        if (await db.Routines.AnyAsync(r => r.AgencyId == routine.AgencyId && r.LearnerId == routine.LearnerId && r.Live && r.Name == routine.Name, stop))
            return Outcome<Saved>.Refused("", "Another routine has this name meanwhile. Give this one another name first.");
        db.BeganOn(routine, input.Version);
        (routine.Live, routine.EndedOn, routine.EndedBy, routine.EndedReason) = (true, null, null, null);
        return Outcome<Saved>.Of(new(routine.Id));
    }
}
