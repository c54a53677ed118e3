using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Cancels all planned visits that stand on a closure, because there is no school. Visits that somebody said take place all the same stay.</summary>
public sealed class CancelClosedVisits(Portal portal)
{
    public sealed record Input
    {
        public int Closure { get; init; }
        public int Version { get; init; }
    }

    public sealed record Saved(LocalDate OnDay, int Visits);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.Administrator)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "visits on a closed day"), Operation.Of(operation, nameof(CancelClosedVisits), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Closures.SingleOrDefaultAsync(
                c => c.AgencyId == caller.AgencyId && c.Id == input.Closure && c.Live && c.Kind != ClosureKind.Extra, stop) is not { } closure)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (closure.OnDay < caller.Today)
            return Outcome<Saved>.Refused("", "That day is past. Each visit is logged by who would have given it.");
        db.Touch(closure, input.Version);
        var visits = await ClosureVisits.Standing(db, caller.AgencyId).Where(v => v.OnDay == closure.OnDay).ToListAsync(stop);
        if (visits.Count == 0)
            return Outcome<Saved>.Refused("", "No planned visit stands on that day any more.");
        foreach (var visit in visits)
        {
            (visit.State, visit.CalledOff, visit.ClosureId) = (VisitState.CalledOff, Reason.SchoolClosed, closure.Id);
            (visit.Sequence, visit.ExpectedStart) = (visit.Sequence + 1, null);
        }
        return Outcome<Saved>.Of(new(closure.OnDay, visits.Count));
    }
}
