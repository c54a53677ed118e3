using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Gives a person a role from a day on.</summary>
public sealed class GiveRole(Portal portal)
{
    public sealed record Input
    {
        public int Person { get; init; }

        [Required(ErrorMessage = "Choose one of the roles.")]
        public Role? Role { get; init; }

        /// <summary>Null: today.</summary>
        public LocalDate? FromDay { get; init; }

        /// <summary>Null: open.</summary>
        public LocalDate? ToDay { get; init; }
    }

    public sealed record Done(int Person);

    public async Task<Outcome<Done>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop)
    {
        var (role, from) = (input.Role ?? Role.Terminal, input.FromDay ?? caller.Today);
        if (RoleRules.Check(caller, role, from, input.ToDay) is { Count: > 0 } problems)
            return Outcome<Done>.Refused(problems);
        return await portal.WriteAsync(Scope.WholeAgency(caller, "people"), Operation.Of(operationId, nameof(GiveRole), input), async db =>
        {
            if (!await db.People.AnyAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Person && p.EndedAt == null, stop))
                return Outcome<Done>.Refused(Problem.NotFound);
            if (await OverlapsAsync(db, caller.AgencyId, input.Person, role, from, input.ToDay, stop))
                return Outcome<Done>.Refused("Role", "They have that role on some of these days already.");
            db.PersonRoles.Add(new PersonRoleRow { AgencyId = caller.AgencyId, PersonId = input.Person, Role = role, FromDay = from, ToDay = input.ToDay });
            return Outcome<Done>.Of(new Done(input.Person));
        }, stop);
    }

    private static Task<bool> OverlapsAsync(PortalDb db, int agency, int person, Role role, LocalDate from, LocalDate? to, CancellationToken stop) =>
        db.PersonRoles.AnyAsync(
            r => r.AgencyId == agency && r.PersonId == person && r.Role == role
                && (r.ToDay == null || r.ToDay >= from) && (to == null || r.FromDay <= to), stop);
}
