using System.CommandLine;
using TeamCircle.Cli.People;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Beginning;

namespace TeamCircle.Cli.Beginning;

/// <summary>
/// <c>new-agency CODE</c>: makes an agency with nothing in it, and prints the link by which its first administrator joins.
/// </summary>
internal static class NewAgencyCommand
{
    private static readonly Argument<string> Code = new("CODE") { Description = "A short code for the agency: 2 to 20 letters and figures." };
    private static readonly Option<string> Name = new("--name") { Description = "The agency's name.", Required = true };
    private static readonly Option<string> Zone = new("--time-zone") { Description = "A name of the tz database, such as America/Los_Angeles: where the agency's day begins and ends.", Required = true };
    private static readonly Option<string> Email = new("--administrator") { Description = "The e-mail address with which its first administrator signs in.", Required = true };
    private static readonly Option<string> Person = new("--administrator-name") { Description = "Their name.", Required = true };

    public static Command Create()
    {
        var command = new Command("new-agency", "Make an agency and print the link by which its first administrator joins.") { Code, Name, Zone, Email, Person, InviteCommand.Portal };
        command.SetAction((parsed, stop) => Desk.RunAsync(desk => RunAsync(desk, parsed, stop), stop));
        return command;
    }

    private static async Task<int> RunAsync(Desk desk, ParseResult parsed, CancellationToken stop)
    {
        var (code, email) = (parsed.GetValue(Code)!, parsed.GetValue(Email)!);
        InviteCommand.CheckAddress(email);
        var made = await desk.Get<MakeAgency>().RunAsync(new(code, parsed.GetValue(Name)!, parsed.GetValue(Zone)!), stop);
        if (made.Value is null)
            throw new CommandFailure(made.Problems[0].Message);
        Console.Error.WriteLine($"The agency {code} is there, with nothing in it. Its administrator finds the way under Settings, Set up this agency.");
        return await InviteCommand.AdministratorAsync(desk, code, email, parsed.GetValue(Person)!, parsed.GetValue(InviteCommand.Portal)!, stop);
    }
}
