using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Sets the last day of a role; the day before today takes it away at once.</summary>
public sealed class EndRole(Portal portal)
{
    public sealed record Input
    {
        public int Role { get; init; }

        /// <summary>The version that the form was shown with.</summary>
        public int Version { get; init; }

        /// <summary>Null: yesterday, so that it ends at once.</summary>
        public LocalDate? LastDay { get; init; }
    }

    public sealed record Done(int Person);

    public async Task<Outcome<Done>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop)
    {
        if (!RoleRules.LooksAfterPeople(caller))
            return Outcome<Done>.Refused(Problem.NotFound);
        return await portal.WriteAsync(Scope.WholeAgency(caller, "people"), Operation.Of(operationId, nameof(EndRole), input), async db =>
        {
            var row = await db.PersonRoles.SingleOrDefaultAsync(r => r.AgencyId == caller.AgencyId && r.Id == input.Role, stop);
            if (row is null or { Role: Role.Terminal })
                return Outcome<Done>.Refused(Problem.NotFound);
            if (RoleRules.CheckEnd(caller, row.PersonId, row.Role) is { } problem)
                return Outcome<Done>.Refused(problem);
            var last = input.LastDay ?? caller.Today.PlusDays(-1);
            db.Entry(row).Property(r => r.Version).OriginalValue = input.Version;
            // A role that ends before it began never held; its row stays, and says so.
            row.ToDay = last < row.FromDay ? row.FromDay.PlusDays(-1) : last;
            return Outcome<Done>.Of(new Done(row.PersonId));
        }, stop);
    }
}
