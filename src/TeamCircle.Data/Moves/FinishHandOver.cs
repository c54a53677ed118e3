using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Moves;

/// <summary>Marks a hand-over as finished: nothing on the list is left to decide.</summary>
public sealed class FinishHandOver(Portal portal, TimeProvider clock)
{
    public sealed record Input(int Person, int Version);

    public sealed record Saved(int Person);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => caller.Is(Role.Administrator)
        ? await portal.WriteAsync(Scope.WholeAgency(caller, "a last day"), Operation.Of(operation, nameof(FinishHandOver), input), db => WorkAsync(db, caller, input, stop), stop)
        : Outcome<Saved>.Refused(Problem.NotFound);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.LastDays.SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == input.Person && d.FinishedAt == null, stop) is not { } last)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var left = (await new LeftBehind(db, caller.AgencyId, last, caller.Today).ListAsync(stop)).Count;
        if (left > 0)
            return Outcome<Saved>.Refused("", left == 1
                ? "One thing is not decided yet. The list says which."
                : string.Create(CultureInfo.InvariantCulture, $"{left} things are not decided yet. The list says which."));
        db.BeganOn(last, input.Version);
        (last.FinishedAt, last.FinishedBy) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId);
        return Outcome<Saved>.Of(new(input.Person));
    }
}
