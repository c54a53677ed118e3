using TeamCircle.Cli.Startup;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Cli.Postgres;

/// <summary>Opens the database with the owner's rights for a command, and turns what a person can mend into one line.</summary>
internal static class OwnerDesk
{
    public static Task<int> RunAsync(bool mayBeEmpty, Func<string, Task> work, CancellationToken stop) => Desk.AnswerAsync(async () =>
    {
        await using var database = await OwnerDatabase.OpenAsync(
            AppContext.BaseDirectory,
            Environment.GetEnvironmentVariable(OwnerDatabase.Setting),
            Environment.GetEnvironmentVariable("ConnectionStrings__TeamCircle"),
            mayBeEmpty, Console.Error.WriteLine, stop);
        await work(database.Connection);
        return 0;
    });
}
