using System.Diagnostics;
using System.Net.Sockets;
using Npgsql;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>The portal as a process with its private database, as a person starts and stops it.</summary>
public sealed class StartAndStopTests : IAsyncDisposable
{
    private readonly string _data = ScratchFolder.Make();

    private PostgresOptions Postgres => new(Path.Combine(_data, "postgres"));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await PostgresLauncher.StopAbandonedAsync(Postgres, CancellationToken.None);
        Directory.Delete(_data, recursive: true);
    }

    [Fact]
    public async Task Stopping_the_portal_stops_its_database_and_a_new_start_finds_its_data()
    {
        using var first = PortalProcess.Start(_data);
        Assert.Equal("Healthy", await ReadyAsync(await first.AddressAsync()));
        string connection;
        await using (var guest = await PostgresLauncher.StartAsync(Postgres, Stop))
            connection = guest.ConnectionString("teamcircle") + ";Pooling=false";
        await AskAsync(connection, "create table kept as select 'yes' as answer");
        Assert.Equal(0, await first.StopAsync());
        await Assert.ThrowsAsync<NpgsqlException>(() => AskAsync(connection, "select 1"));

        using var second = PortalProcess.Start(_data);
        await second.AddressAsync();

        Assert.Equal("yes", await AskAsync(connection, "select answer from kept"));
        Assert.Equal(0, await second.StopAsync());
    }

    [Fact]
    public async Task Start_after_a_killed_portal_takes_over_its_database_and_stops_it_in_the_end()
    {
        using var first = PortalProcess.Start(_data);
        await first.AddressAsync();
        string connection;
        await using (var guest = await PostgresLauncher.StartAsync(Postgres, Stop))
            connection = guest.ConnectionString("teamcircle") + ";Pooling=false";
        var started = await AskAsync(connection, "select pg_postmaster_start_time()");
        await first.KillAsync();

        using var second = PortalProcess.Start(_data);
        Assert.Equal("Healthy", await ReadyAsync(await second.AddressAsync()));

        Assert.Equal(started, await AskAsync(connection, "select pg_postmaster_start_time()"));
        Assert.Equal(0, await second.StopAsync());
        await Assert.ThrowsAsync<NpgsqlException>(() => AskAsync(connection, "select 1"));
    }

    [Fact]
    public async Task Ordinary_account_starts_and_stops_it_too()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess, "All other tests already run as an ordinary account.");
        Assert.SkipUnless(IsOpenToAll(AppContext.BaseDirectory), "Other accounts may not enter the folder of the tests.");
        using (var chown = Process.Start("chown", ["nobody", _data]))
            await chown.WaitForExitAsync(Stop);
        using var portal = PortalProcess.Start(_data, account: "nobody");

        Assert.Equal("Healthy", await ReadyAsync(await portal.AddressAsync()));

        Assert.Equal(0, await portal.StopAsync());
        Assert.False(File.Exists(Path.Combine(_data, "postgres", "cluster", "postmaster.pid")));
    }

    private static bool IsOpenToAll(string folder)
    {
        for (var above = new DirectoryInfo(folder); above is not null; above = above.Parent)
            if (!above.UnixFileMode.HasFlag(UnixFileMode.OtherExecute))
                return false;
        return true;
    }

    [Fact]
    public async Task Taken_port_ends_with_one_line_that_names_it()
    {
        using var other = new TcpListener(System.Net.IPAddress.Loopback, 0);
        other.Start();
        using var portal = PortalProcess.Start(_data, $"http://{other.LocalEndpoint}");

        var line = await OneLineAsync(portal);

        Assert.StartsWith($"The portal's port is taken (http://{other.LocalEndpoint})", line, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nonsense", "can't be read")]
    [InlineData("Host=127.0.0.1;Port=1;Username=a;Password=secret", "No server answers")]
    public async Task Wrong_connection_string_ends_with_one_line_that_does_not_repeat_it(string connectionString, string says)
    {
        using var portal = PortalProcess.Start(_data, connectionString: connectionString);

        var line = await OneLineAsync(portal);

        Assert.Contains(says, line, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Folder_that_cannot_be_written_to_ends_with_one_line_that_names_it()
    {
        var file = Path.Combine(_data, "file");
        await File.WriteAllTextAsync(file, "", Stop);
        using var portal = PortalProcess.Start(file);

        var line = await OneLineAsync(portal);

        Assert.Contains(file, line, StringComparison.Ordinal);
        Assert.Contains("set TEAMCIRCLE_DATA", line, StringComparison.Ordinal);
    }

    private static async Task<string> OneLineAsync(PortalProcess portal)
    {
        var (exitCode, errors) = await portal.EndAsync();
        Assert.Equal(1, exitCode);
        return Assert.Single(errors.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    private static async Task<string> ReadyAsync(Uri portal)
    {
        using var http = new HttpClient();
        return await http.GetStringAsync(new Uri(portal, "/health/ready"), Stop);
    }

    private static async Task<object?> AskAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(Stop);
    }
}
