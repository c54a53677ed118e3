using System.CommandLine;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Cli.Postgres;

/// <summary><c>migrate</c>: brings the database to the schema of this version; a second run changes nothing.</summary>
/// <remarks>
/// Passwords come from the environment, where other users of the machine can't read them from the list of processes:
/// <c>ConnectionStrings__TeamCircleOwner</c> and, to set the portal's own password, <c>TEAMCIRCLE_APP_PASSWORD</c>.
/// Without the first it works on the private database, which every start of the portal migrates too.
/// </remarks>
internal static class MigrateCommand
{
    public static Command Create()
    {
        var command = new Command("migrate", "Bring the database to this version's schema. Take a backup first.");
        command.SetAction((_, stop) => Environment.GetEnvironmentVariable("ConnectionStrings__TeamCircleOwner") is { Length: > 0 } owner
            ? Desk.AnswerAsync(() => RunAsync(owner, stop))
            : Desk.RunAsync(_ => Task.FromResult(Done()), stop));
        return command;
    }

    private static async Task<int> RunAsync(string owner, CancellationToken stop)
    {
        var password = Environment.GetEnvironmentVariable("TEAMCIRCLE_APP_PASSWORD");
        await PortalDatabase.MigrateAsync(owner, string.IsNullOrEmpty(password) ? null : password, stop);
        return Done();
    }

    private static int Done()
    {
        Console.WriteLine("The database has the schema of this version.");
        return 0;
    }
}
