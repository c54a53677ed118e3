using System.Net;
using System.Net.Sockets;
using Npgsql;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Postgres;

/// <summary>Each test starts real servers in a folder of its own.</summary>
public sealed class PostgresLauncherTests : IDisposable
{
    private const string SystemPrograms = "/usr/lib/postgresql/15/bin";
    private readonly string _folder = ScratchFolder.Make();

    private PostgresOptions Quick => new(_folder) { Durable = false };

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        NpgsqlConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Second_start_finds_the_data_of_the_first()
    {
        await using (var first = await PostgresLauncher.StartAsync(Quick, Stop))
        {
            await first.EnsureDatabaseAsync("kept", stop: Stop);
            await first.EnsureDatabaseAsync("kept", stop: Stop);
            await AskAsync(first.ConnectionString("kept"), "create table t as select 42 as n");
        }

        await using var second = await PostgresLauncher.StartAsync(Quick, Stop);

        Assert.False(second.Adopted);
        Assert.Equal(42, await AskAsync(second.ConnectionString("kept"), "select n from t"));
    }

    [Fact]
    public async Task Start_beside_a_living_owner_joins_it_and_does_not_stop_it()
    {
        await using var owner = await PostgresLauncher.StartAsync(Quick, Stop);

        await using (var guest = await PostgresLauncher.StartAsync(Quick, Stop))
            Assert.True(guest.Adopted);

        Assert.Equal(1, await AskAsync(owner.ConnectionString("postgres"), "select 1"));
    }

    [Fact]
    public async Task Two_starts_at_once_share_one_server()
    {
        var both = await Task.WhenAll(PostgresLauncher.StartAsync(Quick, Stop), PostgresLauncher.StartAsync(Quick, Stop));

        var starts = await Task.WhenAll(both.Select(server => AskAsync(server.ConnectionString("postgres"), "select pg_postmaster_start_time()")));
        foreach (var server in both)
            await server.DisposeAsync();

        Assert.Equal(starts[0], starts[1]);
    }

    [Fact]
    public async Task Stopped_server_answers_nobody()
    {
        string connection;
        await using (var server = await PostgresLauncher.StartAsync(Quick, Stop))
            connection = server.ConnectionString("postgres");

        await Assert.ThrowsAsync<NpgsqlException>(() => AskAsync(connection, "select 1"));
    }

    [Fact]
    public async Task Loopback_port_asks_for_the_password()
    {
        await using var server = await PostgresLauncher.StartAsync(Quick with { OverTcp = true }, Stop);
        await AskAsync(server.ConnectionString("postgres"), "create role somebody login");
        await server.AllowSignInAsync(Stop);
        var wrong = new NpgsqlConnectionStringBuilder(server.ConnectionString("postgres", "somebody")) { Password = "wrong" };

        Assert.Equal("somebody", await AskAsync(server.ConnectionString("postgres", "somebody"), "select current_user::text"));
        var refused = await Assert.ThrowsAsync<PostgresException>(() => AskAsync(wrong.ConnectionString, "select 1"));
        Assert.Equal(PostgresErrorCodes.InvalidPassword, refused.SqlState);
    }

    [Fact]
    public async Task Folder_with_a_long_name_starts_with_its_socket_elsewhere()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows uses no socket.");
        var deep = Path.Combine(_folder, new string('a', 60), new string('b', 60));

        await using var server = await PostgresLauncher.StartAsync(Quick with { Folder = deep }, Stop);

        Assert.Equal(1, await AskAsync(server.ConnectionString("postgres"), "select 1"));
    }

    [Fact]
    public async Task Log_names_neither_statements_nor_their_values()
    {
        await using (var server = await PostgresLauncher.StartAsync(Quick, Stop))
        {
            var connection = server.ConnectionString("postgres");
            await AskAsync(connection, "create table t (name text primary key); insert into t values ('canary')");
            await Assert.ThrowsAsync<PostgresException>(() => AskAsync(connection, "insert into t values ('canary')"));
            await Assert.ThrowsAsync<PostgresException>(() => AskAsync(connection, "select 'canary'::date"));
        }

        var log = string.Concat(Directory.GetFiles(Path.Combine(_folder, "log")).Select(File.ReadAllText));
        Assert.Contains("database system is shut down", log, StringComparison.Ordinal);
        Assert.DoesNotContain("canary", log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Programs_of_the_system_are_used_where_PG_BIN_names_them()
    {
        Assert.SkipUnless(Directory.Exists(SystemPrograms), "This machine has no " + SystemPrograms);

        await using var server = await PostgresLauncher.StartAsync(Quick with { ProgramFolder = SystemPrograms }, Stop);

        Assert.Equal(15, server.Files.Version);
        Assert.Equal(15, Convert.ToInt32(await AskAsync(server.ConnectionString("postgres"), "select current_setting('server_version_num')::int / 10000"), null));
    }

    [Fact]
    public async Task Data_of_another_version_is_refused_by_name()
    {
        Assert.SkipUnless(Directory.Exists(SystemPrograms), "This machine has no " + SystemPrograms);
        await using (await PostgresLauncher.StartAsync(Quick with { ProgramFolder = SystemPrograms }, Stop))
        {
        }
        var newer = PostgresFiles.Find(Quick with { ProgramFolder = null }, null);
        Assert.SkipWhen(newer.Version == 15, "This machine has only one version.");

        var failure = await FailureAsync(Quick with { ProgramFolder = newer.Folder });

        Assert.Contains("made by PostgreSQL 15", failure, StringComparison.Ordinal);
        Assert.Contains("PG_BIN", failure, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Missing_programs_are_one_line_that_says_what_to_do()
    {
        var failure = await FailureAsync(Quick with { ProgramFolder = _folder });

        Assert.StartsWith("PG_BIN is " + _folder, failure, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Folder_that_cannot_be_made_is_one_line_that_says_what_to_do()
    {
        var file = Path.Combine(_folder, "file");
        await File.WriteAllTextAsync(file, "", Stop);

        var failure = await FailureAsync(Quick with { Folder = Path.Combine(file, "postgres") });

        Assert.Contains("set TEAMCIRCLE_DATA to another folder", failure, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Taken_port_is_one_line_that_names_it()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var port = ((IPEndPoint)other.LocalEndpoint).Port;

        var failure = await FailureAsync(Quick with { OverTcp = true, Port = port });

        Assert.Contains($"Port {port} on this machine is taken", failure, StringComparison.Ordinal);
    }

    private static async Task<string> FailureAsync(PostgresOptions options)
    {
        var failure = await Assert.ThrowsAsync<StartupFailure>(() => PostgresLauncher.StartAsync(options, Stop));
        Assert.DoesNotContain('\n', failure.Message);
        return failure.Message;
    }

    private static async Task<object?> AskAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString + ";Pooling=false");
        await connection.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(Stop);
    }
}
