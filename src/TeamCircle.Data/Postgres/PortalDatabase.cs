using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>The database that the portal and the terminal program work on: the private server's, or one that is named.</summary>
public sealed class PortalDatabase : IAsyncDisposable
{
    private const string Name = "teamcircle";
    private readonly PostgresServer? _server;

    private PortalDatabase(string connection, PostgresServer? server) => (Connection, _server) = (connection, server);

    /// <summary>Signs in as the application role.</summary>
    public string Connection { get; }

    /// <param name="named"><c>ConnectionStrings__TeamCircle</c>, or null or empty for the private server.</param>
    /// <param name="note">Told what a person may want to know, a line at a time.</param>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public static Task<PortalDatabase> OpenAsync(string contentRoot, string? named, Action<string> note, CancellationToken stop = default) =>
        string.IsNullOrWhiteSpace(named) ? StartPrivateAsync(contentRoot, note, stop) : ReachAsync(named, stop);

    /// <summary>True where the database answers at this moment.</summary>
    public async Task<bool> AnswersAsync(CancellationToken stop)
    {
        try
        {
            await using var connection = new NpgsqlConnection(Connection);
            await connection.OpenAsync(stop);
            await using var command = new NpgsqlCommand("select 1", connection);
            return await command.ExecuteScalarAsync(stop) is 1;
        }
        catch (NpgsqlException)
        {
            return false;
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_server is not null)
            await _server.DisposeAsync();
    }

    private static async Task<PortalDatabase> StartPrivateAsync(string contentRoot, Action<string> note, CancellationToken stop)
    {
        var folders = PortalFolders.From(contentRoot);
        var options = new PostgresOptions(folders.Postgres)
        {
            FolderIsChosen = folders.IsChosen,
            SearchFrom = [contentRoot, AppContext.BaseDirectory],
            Note = note,
        };
        var server = await PostgresLauncher.StartAsync(options, stop);
        try
        {
            await server.EnsureDatabaseAsync(Name, stop: stop);
            await server.AllowSignInAsync(stop);
            return new PortalDatabase(server.ConnectionString(Name), server);
        }
        catch
        {
            await server.DisposeAsync();
            throw;
        }
    }

    private static async Task<PortalDatabase> ReachAsync(string named, CancellationToken stop)
    {
        try
        {
            await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(named) { Pooling = false }.ConnectionString);
            await connection.OpenAsync(stop);
            return new PortalDatabase(named, null);
        }
        catch (ArgumentException cause)
        {
            throw new StartupFailure("ConnectionStrings__TeamCircle can't be read: write it as Host=…;Database=…;Username=…;Password=….", cause);
        }
        catch (PostgresException cause)
        {
            throw new StartupFailure($"The server that ConnectionStrings__TeamCircle names refused the sign-in ({cause.SqlState}): check its database, user name and password.", cause);
        }
        catch (NpgsqlException cause)
        {
            throw new StartupFailure("No server answers where ConnectionStrings__TeamCircle points: check its host and port, and that the server runs.", cause);
        }
    }
}
