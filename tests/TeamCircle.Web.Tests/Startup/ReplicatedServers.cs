using System.Diagnostics;
using System.Globalization;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>A primary and a streaming standby on two loopback ports, made by PostgreSQL's own pg_basebackup; the ports stay, whichever is which.</summary>
internal sealed class ReplicatedServers : IAsyncDisposable
{
    public const string Programs = "/usr/lib/postgresql/15/bin";
    private const string DatabaseName = "portal";
    private readonly string _folder;
    private int _made;

    private ReplicatedServers(string folder, Node primary) => (_folder, Primary) = (folder, primary);

    /// <param name="Root">Holds the cluster and the password of its bootstrap role.</param>
    public sealed record Node(PostgresServer Server, string Root, int Port)
    {
        public string Connection(string database = DatabaseName) => Server.ConnectionString(database) + ";Pooling=false";
    }

    public Node Primary { get; private set; }

    public Node? Standby { get; private set; }

    public static async Task<ReplicatedServers> StartAsync(string folder)
    {
        var primary = await StartAsync(Path.Combine(folder, "node-0"), 0);
        await primary.Server.EnsureDatabaseAsync(DatabaseName);
        return new(folder, primary);
    }

    /// <summary>How the application role reaches whichever is wanted of the two.</summary>
    /// <param name="wanted">PostgreSQL's word for it: <c>primary</c> or <c>prefer-standby</c>.</param>
    public string ToBoth(string wanted)
    {
        var one = new NpgsqlConnectionStringBuilder(Primary.Server.ConnectionString(DatabaseName, Migrate.App));
        one.Remove("Port");
        one.Host = string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{Primary.Port},127.0.0.1:{Standby!.Port}");
        return one.ConnectionString + $";Target Session Attributes={wanted};Host Recheck Seconds=2;Timeout=5";
    }

    /// <summary>Copies the primary while it serves, and lets the copy follow it.</summary>
    /// <param name="port">Where it is to listen; 0 takes any free one.</param>
    /// <param name="waitForIt">Whether each commit waits until the standby has it on disk.</param>
    public async Task AddStandbyAsync(int port, bool waitForIt)
    {
        var root = Path.Combine(_folder, string.Create(CultureInfo.InvariantCulture, $"node-{++_made}"));
        Directory.CreateDirectory(root);
        File.Copy(Path.Combine(Primary.Root, "password"), Path.Combine(root, "password"));
        if (Environment.IsPrivilegedProcess)
            await RunAsync("chown", null, "-R", "postgres:", root);
        string[] how = ["-h", "127.0.0.1", "-p", Primary.Port.ToString(CultureInfo.InvariantCulture), "-U", PostgresServer.Bootstrap, "-D", Path.Combine(root, "cluster"), "-R", "-X", "stream", "-c", "fast"];
        await RunAsync(Path.Combine(Programs, "pg_basebackup"), await File.ReadAllTextAsync(Path.Combine(root, "password")), how);
        Standby = await StartAsync(root, port);
        await AskAsync(Primary.Connection("postgres"), waitForIt ? "alter system set synchronous_standby_names = '*'" : "alter system reset synchronous_standby_names");
        await AskAsync(Primary.Connection("postgres"), "select pg_reload_conf()");
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        while (await AskAsync(Primary.Connection("postgres"), $"select count(*) from pg_stat_replication where state = 'streaming' and sync_state = '{(waitForIt ? "sync" : "async")}'") is not 1L)
            await pace.WaitForNextTickAsync();
    }

    public async Task StopStandbyAsync() => await Standby!.Server.DisposeAsync();

    public async Task StartStandbyAsync() => Standby = await StartAsync(Standby!.Root, Standby.Port);

    /// <summary>Ends the primary at once, without a word to it.</summary>
    public void KillPrimary()
    {
        var pid = int.Parse(File.ReadLines(Path.Combine(Primary.Root, "cluster", "postmaster.pid")).First(), CultureInfo.InvariantCulture);
        using var server = Process.GetProcessById(pid);
        server.Kill();
        server.WaitForExit();
    }

    /// <summary>Makes the standby the primary; the dead one is gone for good.</summary>
    /// <returns>The port that is free now.</returns>
    public async Task<int> PromoteAsync()
    {
        await AskAsync(Standby!.Connection("postgres"), "select pg_promote(true, 60)");
        var free = Primary.Port;
        await Primary.Server.DisposeAsync();
        (Primary, Standby) = (Standby, null);
        return free;
    }

    public static async Task<object?> AskAsync(string connection, string sql)
    {
        await using var database = new NpgsqlConnection(connection);
        await database.OpenAsync();
        await using var command = new NpgsqlCommand(sql, database);
        return await command.ExecuteScalarAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (Standby is not null)
            await Standby.Server.DisposeAsync();
        await Primary.Server.DisposeAsync();
    }

    private static async Task<Node> StartAsync(string root, int port)
    {
        var server = await PostgresLauncher.StartAsync(new PostgresOptions(root) { OverTcp = true, ProgramFolder = Programs, Port = port });
        return new(server, root, new NpgsqlConnectionStringBuilder(server.ConnectionString("postgres")).Port);
    }

    private static async Task RunAsync(string program, string? password, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardError = true, WorkingDirectory = Path.GetTempPath() };
        if (password is not null)
            start.Environment["PGPASSWORD"] = password;
        if (password is not null && Environment.IsPrivilegedProcess)
            start.UserName = "postgres";
        using var process = Process.Start(start)!;
        var errors = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, errors);
    }
}
