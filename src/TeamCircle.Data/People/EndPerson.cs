using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Takes a person off the agency's list from the next request on, or puts them back; what they recorded stays.</summary>
public sealed class EndPerson(Portal portal, TimeProvider clock)
{
    /// <param name="Restore">True: back on the list, with the roles and relations that are still in date.</param>
    public sealed record Input(int Person, int Version, bool Restore);

    public sealed record Done(int Person);

    public async Task<Outcome<Done>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop)
    {
        if (!RoleRules.LooksAfterPeople(caller))
            return Outcome<Done>.Refused(Problem.NotFound);
        if (input.Person == caller.PersonId)
            return Outcome<Done>.Refused("", "You can't take yourself off the list: another administrator can.");
        return await portal.WriteAsync(Scope.WholeAgency(caller, "people"), Operation.Of(operationId, nameof(EndPerson), input), async db =>
        {
            var row = await db.People.SingleOrDefaultAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Person, stop);
            if (row is null || await IsTerminalAsync(db, row, stop))
                return Outcome<Done>.Refused(Problem.NotFound);
            db.Entry(row).Property(r => r.Version).OriginalValue = input.Version;
            row.EndedAt = input.Restore ? null : Instant.FromDateTimeOffset(clock.GetUtcNow());
            return Outcome<Done>.Of(new Done(row.Id));
        }, stop);
    }

    private static Task<bool> IsTerminalAsync(PortalDb db, PersonRow row, CancellationToken stop) =>
        db.PersonRoles.AnyAsync(r => r.AgencyId == row.AgencyId && r.PersonId == row.Id && r.Role == Role.Terminal, stop);
}
