using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Takes back that visits were cancelled for a closure: all of them are planned again but those whose time was given to somebody else.</summary>
public sealed class BringBackClosedVisits(Portal portal)
{
    public sealed record Input
    {
        public int Closure { get; init; }
        public int Version { get; init; }
    }

    /// <param name="Lost">How many could not come back.</param>
    public sealed record Saved(LocalDate OnDay, int Back, int Lost);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.Administrator)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "visits on a closed day"), Operation.Of(operation, nameof(BringBackClosedVisits), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Closures.SingleOrDefaultAsync(c => c.AgencyId == caller.AgencyId && c.Id == input.Closure && c.Live, stop) is not { } closure)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (closure.OnDay < caller.Today)
            return Outcome<Saved>.Refused("", "That day is past. A visit that took place is logged by who gave it.");
        db.Touch(closure, input.Version);
        await db.SaveChangesAsync(stop);
        var (back, lost) = await ClosureVisits.BringBackAsync(db, closure, stop);
        return Outcome<Saved>.Of(new(closure.OnDay, back, lost.Count));
    }
}
