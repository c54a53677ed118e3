using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>The way to everything that is written about one routine: members of the learner's team and its case manager.</summary>
internal static class RoutineDoor
{
    /// <param name="work">Gets the routine, which may have ended.</param>
    public static Task<Outcome<T>> WriteRoutineAsync<T>(
        this Portal portal, Caller caller, int routine, Operation operation, Func<PortalDb, RoutineRow, Task<Outcome<T>>> work, CancellationToken stop) where T : class =>
        portal.WriteAsync(Scope.Of(caller), operation, async db =>
            await db.Routines.SingleOrDefaultAsync(r => r.AgencyId == caller.AgencyId && r.Id == routine, stop) is { } row && ReadRoutines.MayWrite(caller, row.LearnerId)
                ? await work(db, row)
                : Outcome<T>.Refused(Problem.NotFound), stop);

    public static readonly Problem Ended = new("", "This routine has ended. Take that back first.");
}
