using System.CommandLine;
using TeamCircle.Cli.Startup;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;

namespace TeamCircle.Cli.People;

/// <summary>
/// <c>invite EMAIL</c>: puts a person on an agency's list, or finds them there, and prints the link by which they join,
/// once. <c>new-password EMAIL</c>: prints the link by which somebody who has joined sets a new password. <c>remove-factors EMAIL</c>: takes
/// lost second factors away.
/// </summary>
internal static class InviteCommand
{
    private static readonly Argument<string> Email = new("EMAIL") { Description = "The address with which they sign in." };
    internal static readonly Option<string> Portal = new("--portal") { Description = "The portal's address, to print the link whole.", DefaultValueFactory = _ => "" };

    public static Command Create()
    {
        var agency = Desk.AgencyOption();
        var role = new Option<string>("--role") { Description = "provider, case manager, administrator, director or family.", Required = true };
        var name = new Option<string?>("--name") { Description = "Their name; needed for somebody who is not on the list yet." };
        var command = new Command("invite", "Put a person on an agency's list and print the link by which they join.") { Email, agency, role, name, Portal };
        command.SetAction((parsed, stop) => Desk.RunAsync(async desk =>
        {
            var caller = await CallerAsync(desk, parsed.GetValue(agency), stop);
            var given = Words.Find<Role>(parsed.GetValue(role)!) ?? throw new CommandFailure("--role: write provider, case manager, administrator, director or family.");
            var person = await FindAsync(desk, caller, parsed.GetValue(Email)!, stop) is { } known
                ? await GiveAsync(desk, caller, known, given, stop)
                : await AddAsync(desk, caller, parsed.GetValue(Email)!, parsed.GetValue(name), given, stop);
            return await PrintAsync(desk, caller, person, parsed.GetValue(Portal)!, stop);
        }, stop));
        return command;
    }

    public static Command CreateNewPassword()
    {
        var agency = Desk.AgencyOption();
        var command = new Command("new-password", "Print the link by which a person sets a new password.") { Email, agency, Portal };
        command.SetAction((parsed, stop) => Desk.RunAsync(async desk =>
        {
            var caller = await CallerAsync(desk, parsed.GetValue(agency), stop);
            var person = await FindAsync(desk, caller, parsed.GetValue(Email)!, stop)
                ?? throw new CommandFailure("Nobody on that agency's list has this e-mail address: invite them first.");
            return await PrintAsync(desk, caller, person.Id, parsed.GetValue(Portal)!, stop);
        }, stop));
        return command;
    }

    public static Command CreateRemoveFactors()
    {
        var agency = Desk.AgencyOption();
        var reason = new Option<string>("--reason") { Description = "Why, in 10 to 200 characters; it stays in the account's events.", Required = true };
        var command = new Command("remove-factors", "Remove a person's second factors, so that they set up new ones after their password.") { Email, agency, reason };
        command.SetAction((parsed, stop) => Desk.RunAsync(async desk =>
        {
            if (parsed.GetValue(reason)!.Trim().Length is < 10 or > 200)
                throw new CommandFailure("--reason: say why in 10 to 200 characters.");
            var caller = await CallerAsync(desk, parsed.GetValue(agency), stop);
            var person = await FindAsync(desk, caller, parsed.GetValue(Email)!, stop)
                ?? throw new CommandFailure("Nobody on that agency's list has this e-mail address.");
            var done = ValueOf(await desk.Get<RemovePersonsFactors>().RunAsync(caller, person.Id, new() { Reason = parsed.GetValue(reason)! }, stop));
            Console.WriteLine($"{done.Removed} removed; every sign-in of theirs has ended.");
            return 0;
        }, stop));
        return command;
    }

    /// <summary>Puts the first administrator of a new agency on its list.</summary>
    internal static async Task<int> AdministratorAsync(Desk desk, string agency, string email, string name, string portal, CancellationToken stop)
    {
        var caller = await CallerAsync(desk, agency, stop);
        return await PrintAsync(desk, caller, await AddAsync(desk, caller, email, name, Role.Administrator, stop), portal, stop);
    }

    internal static void CheckAddress(string email)
    {
        if (!email.Contains('@', StringComparison.Ordinal))
            throw new CommandFailure("EMAIL: that is no e-mail address.");
    }

    private static async Task<Caller> CallerAsync(Desk desk, string? agency, CancellationToken stop)
    {
        var scope = await desk.AgencyAsync(agency, "people", stop);
        return (await desk.Get<ReadCaller>().RunAsync(scope.AgencyId, scope.PersonId, stop))!;
    }

    private static async Task<ListedPerson?> FindAsync(Desk desk, Caller caller, string email, CancellationToken stop) =>
        (await desk.Get<ReadPeople>().RunAsync(Scope.WholeAgency(caller, "people"), null, stop))
            .FirstOrDefault(p => string.Equals(p.Email, email.Trim(), StringComparison.OrdinalIgnoreCase));

    private static async Task<int> AddAsync(Desk desk, Caller caller, string email, string? name, Role role, CancellationToken stop)
    {
        if (string.IsNullOrWhiteSpace(name))
            throw new CommandFailure("--name: nobody on that agency's list has this e-mail address, so a name is needed.");
        CheckAddress(email);
        var input = new InvitePerson.Input { Email = email, Name = name, Role = role };
        return ValueOf(await desk.Get<InvitePerson>().RunAsync(caller, Guid.CreateVersion7(), input, stop)).Person;
    }

    private static async Task<int> GiveAsync(Desk desk, Caller caller, ListedPerson person, Role role, CancellationToken stop)
    {
        if (person.HasEnded)
            throw new CommandFailure("That person was taken off the list: put them back on it in the portal first.");
        if (!person.Roles.Any(r => r.Role == role && r.HoldsOn(caller.Today)))
            ValueOf(await desk.Get<GiveRole>().RunAsync(caller, Guid.CreateVersion7(), new() { Person = person.Id, Role = role }, stop));
        return person.Id;
    }

    private static async Task<int> PrintAsync(Desk desk, Caller caller, int person, string portal, CancellationToken stop)
    {
        var link = ValueOf(await desk.Get<MakeLink>().RunAsync(caller, person, stop));
        Console.WriteLine($"{portal.TrimEnd('/')}{link.Path}");
        await Console.Error.WriteLineAsync(
            $"{(link.Kind is InvitationKind.Join ? "To join." : "Has joined already: to set a new password.")} Shown only now; works once, until {link.EndsAt:uuuu-MM-dd HH:mm} UTC.");
        return 0;
    }

    private static T ValueOf<T>(Outcome<T> outcome) where T : class => outcome.Value ?? throw new CommandFailure(outcome.Problems[0].Message);
}
