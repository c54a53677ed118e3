using System.Globalization;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Testing.Postgres;

/// <summary>One PostgreSQL for a test assembly, with one migrated database that test classes copy.</summary>
/// <remarks>An assembly asks for it once: <c>[assembly: AssemblyFixture(typeof(PgAssembly))]</c>.</remarks>
public sealed class PgAssembly : IAsyncLifetime
{
    private const string Template = "teamcircle_template";
    private readonly SemaphoreSlim _oneCopyAtATime = new(1, 1); // a template in use can't be copied
    private TestServer? _server;
    private int _copies;

    public async ValueTask InitializeAsync() => await FillAsync(await TestServer.StartAsync());

    /// <summary>The same on a server that the caller has started, and stops.</summary>
    public static async Task<PgAssembly> OnAsync(DurableServer server)
    {
        var made = new PgAssembly();
        await made.FillAsync(TestServer.On(server));
        return made;
    }

    private async Task FillAsync(TestServer server)
    {
        _server = server;
        await RunAsync($"create database {Template} template template0");
        await Migrate.RunAsync(server.ConnectionString(Template, PostgresServer.Bootstrap));
        await server.AllowSignInAsync();
    }

    public async ValueTask DisposeAsync()
    {
        NpgsqlConnection.ClearAllPools();
        if (_server is not null)
            await _server.DisposeAsync();
        _oneCopyAtATime.Dispose();
    }

    internal string ConnectionString(string database, string role) => Server.ConnectionString(database, role);

    /// <summary>Copies the migrated database and gives the copy's name.</summary>
    internal async Task<string> CopyAsync()
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"test_{Interlocked.Increment(ref _copies)}");
        await _oneCopyAtATime.WaitAsync();
        try
        {
            await RunAsync($"create database {name} template {Template}");
        }
        finally
        {
            _oneCopyAtATime.Release();
        }
        return name;
    }

    internal Task DropAsync(string database) => RunAsync($"drop database {database} with (force)");

    private TestServer Server => _server ?? throw new InvalidOperationException("The assembly lacks [assembly: AssemblyFixture(typeof(PgAssembly))].");

    private async Task RunAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(Server.ConnectionString("postgres", PostgresServer.Bootstrap) + ";Pooling=false");
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}
