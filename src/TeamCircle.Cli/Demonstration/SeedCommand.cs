using System.CommandLine;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Demonstration;

namespace TeamCircle.Cli.Demonstration;

/// <summary><c>seed --demonstration</c>: fills an empty database with the demonstration agency.</summary>
internal static class SeedCommand
{
    public static Command Create()
    {
        var demonstration = new Option<bool>("--demonstration") { Required = true, Description = "The demonstration agency, laid around today." };
        var command = new Command("seed", "Fill an empty database.") { demonstration };
        command.SetAction((_, stop) => Desk.RunAsync(desk => RunAsync(desk, stop), stop));
        return command;
    }

    private static async Task<int> RunAsync(Desk desk, CancellationToken stop)
    {
        if (await desk.Get<SeedDemonstration>().RunAsync(stop) is null)
            throw new CommandFailure("This database already holds an agency: the demonstration is put into an empty one only.");
        Console.WriteLine($"The demonstration agency {SeedDemonstration.AgencyCode} is there.");
        return 0;
    }
}
