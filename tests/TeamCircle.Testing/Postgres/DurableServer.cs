using System.Diagnostics;
using System.Globalization;
using Npgsql;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Testing.Postgres;

/// <summary>A private PostgreSQL as the portal starts it, with durability, in a folder that a test names: to be killed, starved and cut off.</summary>
public sealed class DurableServer : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly PostgresOptions _options;
    private PostgresServer? _server;
    private int _first;

    private DurableServer(PostgresOptions options) => _options = options;

    /// <param name="durable">False for a control that is to lose something.</param>
    public static async Task<DurableServer> StartAsync(string folder, bool durable = true)
    {
        var server = new DurableServer(new PostgresOptions(folder) { Durable = durable });
        await server.StartAgainAsync();
        return server;
    }

    /// <summary>The same before and after each fault.</summary>
    public string ConnectionString(string database, string role) =>
        (_server ?? throw new InvalidOperationException("It was killed, and not started again.")).ConnectionString(database, role);

    private string Cluster => Path.Combine(_options.Folder, "cluster");

    /// <summary>As a service manager starts it again: nothing is repaired by hand.</summary>
    public async Task StartAgainAsync()
    {
        _server = await PostgresLauncher.StartAsync(_options);
        _first = int.Parse(File.ReadLines(Path.Combine(Cluster, "postmaster.pid")).First(), CultureInfo.InvariantCulture);
    }

    /// <summary>Kills the first process with -9; the others end as soon as they notice.</summary>
    /// <param name="all">All of them at once.</param>
    public async Task KillAsync(bool all)
    {
        var others = ChildrenOf(_first);
        Kill(_first);
        foreach (var other in all ? others : [])
            Kill(other);
        var waited = Stopwatch.StartNew();
        foreach (var one in others.Prepend(_first))
            while (IsRunning(one))
            {
                if (waited.Elapsed > Patience)
                    throw new TimeoutException($"The database's process {one} does not end.");
                await Task.Delay(5);
            }
        await LetGoAsync();
    }

    /// <summary>
    /// Waits until the first process that was killed is gone altogether. One that has ended and was not yet asked for by the machine's first process takes signals
    /// still, so PostgreSQL believes in a running server and does not start; the first process may take some seconds (seen: two).
    /// </summary>
    public async Task GoneAsync(CancellationToken stop)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        while (StatOf(_first) is not null)
            await pace.WaitForNextTickAsync(stop);
    }

    /// <summary>Puts its log of writes (pg_wal) into a folder of its own, as an operator does who gives it a disk of its own.</summary>
    public async Task MoveLogOfWritesAsync(string folder)
    {
        await LetGoAsync();
        using (var move = Process.Start("mv", [Path.Combine(Cluster, "pg_wal"), folder]))
            await move.WaitForExitAsync();
        File.CreateSymbolicLink(Path.Combine(Cluster, "pg_wal"), folder);
        await StartAgainAsync();
    }

    /// <summary>Waits until it takes connections, and starts it where it has ended, as a service manager does.</summary>
    public async Task RunningAgainAsync()
    {
        if (!IsRunning(_first))
        {
            await LetGoAsync();
            await StartAgainAsync();
        }
        await RecoveredAsync();
    }

    /// <summary>Kills the process that serves one of the portal's connections; the others must then all begin anew.</summary>
    /// <returns>False where the portal had no connection.</returns>
    public async Task<bool> KillBackendAsync(string database, string role)
    {
        await using var connection = new NpgsqlConnection(ConnectionString(database, PostgresServer.Bootstrap) + ";Pooling=false");
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(
            "select pid from pg_stat_activity where usename = $1 and datname = $2 order by state = 'active' desc, query_start desc nulls last limit 1", connection)
        {
            Parameters = { new() { Value = role }, new() { Value = database } },
        };
        if (await command.ExecuteScalarAsync() is not int backend)
            return false;
        Kill(backend);
        return true;
    }

    /// <summary>Waits until it takes connections: after the death of one process it recovers by itself.</summary>
    public async Task RecoveredAsync()
    {
        for (var waited = Stopwatch.StartNew(); ; await Task.Delay(10))
        {
            try
            {
                await using var connection = new NpgsqlConnection(ConnectionString("postgres", PostgresServer.Bootstrap) + ";Pooling=false");
                await connection.OpenAsync();
                NpgsqlConnection.ClearAllPools(); // the tests' own; a portal beside them finds out for itself
                return;
            }
            catch (NpgsqlException) when (waited.Elapsed < Patience)
            {
                // it is still recovering
            }
        }
    }

    public async ValueTask DisposeAsync() => await LetGoAsync();

    /// <summary>Gives up its folder; stops it where it still runs.</summary>
    private async Task LetGoAsync()
    {
        if (_server is not null)
            await _server.DisposeAsync();
        _server = null;
    }

    private static int[] ChildrenOf(int parent) =>
        [.. Directory.GetDirectories("/proc").Select(p => int.TryParse(Path.GetFileName(p), CultureInfo.InvariantCulture, out var pid) ? pid : 0).Where(pid => pid > 0 && ParentOf(pid) == parent)];

    /// <summary>Whether it still does anything: one that only waits to be asked for (Z) does not.</summary>
    private static bool IsRunning(int pid) => StatOf(pid) is { } stat && stat[0] != "Z";

    private static int? ParentOf(int pid) => StatOf(pid) is { } stat ? int.Parse(stat[1], CultureInfo.InvariantCulture) : null;

    /// <summary>State, parent and so on: what follows the name, which may hold anything; proc(5).</summary>
    private static string[]? StatOf(int pid)
    {
        try
        {
            var text = File.ReadAllText($"/proc/{pid}/stat");
            return text[(text.LastIndexOf(')') + 2)..].Split(' ');
        }
        catch (IOException) // it has ended
        {
            return null;
        }
    }

    private static void Kill(int pid)
    {
        try
        {
            Process.GetProcessById(pid).Kill();
        }
        catch (Exception gone) when (gone is ArgumentException or InvalidOperationException)
        {
        }
    }
}
