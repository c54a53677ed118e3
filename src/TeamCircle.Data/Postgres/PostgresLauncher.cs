using System.Diagnostics;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>Runs a private PostgreSQL: makes its files on the first start, starts it, or takes over one that is running.</summary>
/// <remarks>
/// pg_ctl starts and stops it, so that Ctrl+C at the terminal reaches the portal alone, which finishes its requests
/// before it stops its database. A portal that is killed leaves the database running; the next one takes it over.
/// </remarks>
public static class PostgresLauncher
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <exception cref="StartupFailure">It can't be started; the message says what to do.</exception>
    public static async Task<PostgresServer> StartAsync(PostgresOptions options, CancellationToken stop = default)
    {
        var account = ServerAccount.ForThisProcess();
        var folder = await ClusterFolder.OpenAsync(options, account, stop);
        var ownership = folder.TakeOwnership();
        try
        {
            var files = PostgresFiles.Find(options, folder.Version).ReadableBy(account, options.Note);
            if (ownership is null)
                return await JoinAsync(folder, files, stop);

            var running = await RunningAsync(folder, stop);
            var address = running ?? await StartFreshAsync(options, account, folder, files, stop);
            return new PostgresServer(address, folder.Root, files, running is not null, () => StopAsync(account, folder, files, ownership));
        }
        catch
        {
            ownership?.Dispose();
            throw;
        }
    }

    /// <summary>Stops the server that a killed process left in the folder; leaves alone one whose process lives.</summary>
    public static async Task StopAbandonedAsync(PostgresOptions options, CancellationToken stop = default)
    {
        var account = ServerAccount.ForThisProcess();
        var folder = await ClusterFolder.OpenAsync(options, account, stop);
        if (folder.TakeOwnership() is not { } ownership)
            return;
        if (await RunningAsync(folder, stop) is not null)
            await StopAsync(account, folder, PostgresFiles.Find(options, folder.Version).ReadableBy(account, options.Note), ownership);
        await ownership.DisposeAsync();
    }

    private static async Task<PostgresAddress> StartFreshAsync(
        PostgresOptions options, ServerAccount account, ClusterFolder folder, PostgresFiles files, CancellationToken stop)
    {
        if (folder.Version is null)
            await folder.InitialiseAsync(files, stop);
        await folder.WriteSettingsAsync(options.OverTcp ? folder.FreePort() : null, stop);

        string[] arguments = ["start", "-D", folder.Cluster, "-l", folder.StartLog, "-w", "-t", "60", "-s"];
        var (exitCode, output) = await account.RunAsync(files.Program("pg_ctl"), arguments, folder.Cluster, stop);
        if (exitCode != 0)
            throw new StartupFailure($"PostgreSQL did not start: {ClusterFolder.LastLine(ReadLog(folder) + output)} (more in {folder.LogFolder})");
        return await RunningAsync(folder, stop)
            ?? throw new StartupFailure($"PostgreSQL started and stopped again: the reason is in {folder.LogFolder}.");
    }

    /// <summary>Waits for the server that another process is starting, and uses it without ever stopping it.</summary>
    private static async Task<PostgresServer> JoinAsync(ClusterFolder folder, PostgresFiles files, CancellationToken stop)
    {
        for (var waited = Stopwatch.StartNew(); waited.Elapsed < Patience; await Task.Delay(50, stop))
            if (await RunningAsync(folder, stop) is { } address)
                return new PostgresServer(address, folder.Root, files, adopted: true, () => Task.CompletedTask);
        throw new StartupFailure($"Another program holds {folder.Root} but its database does not answer: stop that program, or set TEAMCIRCLE_DATA to another folder.");
    }

    /// <summary>Where the folder's server answers, or null where there is none; one that is still starting is waited for.</summary>
    private static async Task<PostgresAddress?> RunningAsync(ClusterFolder folder, CancellationToken stop)
    {
        for (var waited = Stopwatch.StartNew(); waited.Elapsed < Patience; await Task.Delay(20, stop))
        {
            if (folder.ReadAddress() is not { } address)
                return null;
            try
            {
                await using var connection = new NpgsqlConnection(
                    $"Host={address.Host};Port={address.Port};Username={PostgresServer.Bootstrap};Password={address.Password};Database=postgres;Pooling=false;Timeout=5");
                await connection.OpenAsync(stop);
                return address;
            }
            catch (PostgresException notYet) when (notYet.SqlState == PostgresErrorCodes.CannotConnectNow)
            {
                // Starting, recovering or stopping: each ends by itself.
            }
            catch (NpgsqlException)
            {
                return null; // the note is left over from a machine that went down; nobody, or somebody else, answers there
            }
        }
        return null;
    }

    private static async Task StopAsync(ServerAccount account, ClusterFolder folder, PostgresFiles files, FileStream ownership)
    {
        await using (ownership)
        {
            NpgsqlConnection.ClearAllPools();
            await account.RunAsync(files.Program("pg_ctl"), ["stop", "-D", folder.Cluster, "-m", "fast", "-w", "-t", "60", "-s"], folder.Cluster, CancellationToken.None);
        }
    }

    private static string ReadLog(ClusterFolder folder) => File.Exists(folder.StartLog) ? File.ReadAllText(folder.StartLog) : "";
}
