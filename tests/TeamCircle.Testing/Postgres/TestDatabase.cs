using Npgsql;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Testing.Postgres;

/// <summary>A test class's own copy of the migrated database: <c>IClassFixture&lt;TestDatabase&gt;</c>.</summary>
public sealed class TestDatabase(PgAssembly server) : IAsyncLifetime
{
    private string? _name;

    public string Name => _name ?? throw new InvalidOperationException("The database is made before the first test.");

    public async ValueTask InitializeAsync() => _name = await server.CopyAsync();

    /// <summary>How a role reaches this database; the bootstrap role may do everything and sees past row-level security.</summary>
    public string ConnectionString(string role = PostgresServer.Bootstrap) => server.ConnectionString(Name, role);

    public async ValueTask DisposeAsync()
    {
        if (_name is null)
            return;
        NpgsqlConnection.ClearAllPools();
        await server.DropAsync(_name);
    }
}
