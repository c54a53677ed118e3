using System.CommandLine;
using TeamCircle.Cli.Startup;
using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Cli.Postgres;

/// <summary><c>migrate</c>: brings the database to the schema of this version; a second run changes nothing.</summary>
/// <remarks>
/// Both connections come from the environment, where other users of the machine can't read their passwords from the list
/// of processes. With neither it works on the private database, which every start of the portal migrates too.
/// </remarks>
internal static class MigrateCommand
{
    public static Command Create()
    {
        var command = new Command("migrate", $"Bring the database to this version's schema; {OwnerDatabase.Setting} names a sign-in that may. Take a backup first.");
        command.SetAction((_, stop) =>
        {
            var app = Environment.GetEnvironmentVariable("ConnectionStrings__TeamCircle");
            return (Environment.GetEnvironmentVariable(OwnerDatabase.Setting), app) switch
            {
                ({ Length: > 0 } owner, _) => Desk.AnswerAsync(() => RunAsync(owner, app, stop)),
                (_, { Length: > 0 }) => Desk.AnswerAsync(() => throw new StartupFailure(
                    $"{OwnerDatabase.Setting} is not set: it names a sign-in to the same database that may make roles and tables, which the portal's own may not.")),
                _ => Desk.RunAsync(_ => Task.FromResult(Done()), stop),
            };
        });
        return command;
    }

    private static async Task<int> RunAsync(string owner, string? app, CancellationToken stop)
    {
        await PortalDatabase.MigrateAsync(owner, app, stop);
        return Done();
    }

    private static int Done()
    {
        Console.WriteLine("The database has the schema of this version.");
        return 0;
    }
}
