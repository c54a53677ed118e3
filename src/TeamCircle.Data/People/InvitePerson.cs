using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Puts a person with a role on the agency's list. They join by a link that <see cref="Account.MakeLink"/> makes.</summary>
public sealed class InvitePerson(Portal portal)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Enter the e-mail address."), EmailAddress(ErrorMessage = "That is no e-mail address: it needs one @ with something on both sides."), StringLength(254)]
        public string Email { get; init; } = "";

        [Required(ErrorMessage = "Enter the name."), StringLength(120)]
        public string Name { get; init; } = "";

        public Role Role { get; init; } = Role.Provider;

        /// <summary>The role's first day; null: today.</summary>
        public LocalDate? FromDay { get; init; }

        /// <summary>The role's last day; null: open.</summary>
        public LocalDate? ToDay { get; init; }
    }

    public sealed record Done(int Person);

    public Task<Outcome<Done>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop)
    {
        if (RoleRules.Check(caller, input.Role, input.FromDay ?? caller.Today, input.ToDay) is { Count: > 0 } problems)
            return Task.FromResult(Outcome<Done>.Refused(problems));
        return portal.WriteAsync(
            Scope.WholeAgency(caller, "people"), Operation.Of(operationId, nameof(InvitePerson), input), db => AddAsync(db, caller, input, stop), stop);
    }

    private static async Task<Outcome<Done>> AddAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var person = new PersonRow { AgencyId = caller.AgencyId, Email = input.Email.Trim(), Name = input.Name.Trim() };
        db.People.Add(person);
        await db.SaveChangesAsync(stop); // its id is part of the role
        db.PersonRoles.Add(new PersonRoleRow
        {
            AgencyId = caller.AgencyId,
            PersonId = person.Id,
            Role = input.Role,
            FromDay = input.FromDay ?? caller.Today,
            ToDay = input.ToDay,
        });
        return Outcome<Done>.Of(new Done(person.Id));
    }
}
