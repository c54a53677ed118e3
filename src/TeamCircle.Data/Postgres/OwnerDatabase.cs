using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>The database with the owner's rights: to take a backup of it, or to restore one into it.</summary>
public sealed class OwnerDatabase : IAsyncDisposable
{
    public const string Setting = "ConnectionStrings__TeamCircleOwner";
    private const string AppSetting = "ConnectionStrings__TeamCircle";
    private readonly PostgresServer? _server;

    private OwnerDatabase(string connection, PostgresServer? server) => (Connection, _server) = (connection, server);

    /// <summary>Signs in as a role that may act as <see cref="Migrate.Owner"/>.</summary>
    public string Connection { get; }

    /// <param name="owner">The value of <see cref="Setting"/>; null or empty for the private server.</param>
    /// <param name="app">The value of ConnectionStrings__TeamCircle, to tell that a named database is meant.</param>
    /// <param name="mayBeEmpty">For a restore: the database needs no schema yet, and a private one is made where it is missing.</param>
    /// <param name="note">Told what a person may want to know, a line at a time.</param>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public static Task<OwnerDatabase> OpenAsync(
        string contentRoot, string? owner, string? app, bool mayBeEmpty, Action<string> note, CancellationToken stop = default)
    {
        if (!string.IsNullOrWhiteSpace(owner))
            return NamedServer.ReachAsync(Setting, owner, () => ReachAsync(owner, mayBeEmpty, stop));
        return string.IsNullOrWhiteSpace(app)
            ? StartPrivateAsync(contentRoot, mayBeEmpty, note, stop)
            : throw new StartupFailure($"{Setting} is not set: it names a sign-in to the same database that may act as {Migrate.Owner}, which {AppSetting} may not.");
    }

    public async ValueTask DisposeAsync()
    {
        if (_server is not null)
            await _server.DisposeAsync();
    }

    private static async Task<OwnerDatabase> ReachAsync(string owner, bool mayBeEmpty, CancellationToken stop)
    {
        if (!mayBeEmpty || await BackupTables.HasSchemaAsync(owner, stop))
            await using (await OpenAsOwnerAsync(owner, stop)) { }
        return new OwnerDatabase(owner, null);
    }

    private static async Task<OwnerDatabase> StartPrivateAsync(string contentRoot, bool mayBeEmpty, Action<string> note, CancellationToken stop)
    {
        var server = await PostgresLauncher.StartAsync(PortalDatabase.PrivateOptions(contentRoot, note), stop);
        try
        {
            var connection = server.ConnectionString(PortalDatabase.Name);
            if (mayBeEmpty)
                await server.EnsureDatabaseAsync(PortalDatabase.Name, stop: stop);
            else
                await using (await OpenAsOwnerAsync(connection, stop)) { }
            return new OwnerDatabase(connection, server);
        }
        catch (PostgresException nothing) when (nothing.SqlState is PostgresErrorCodes.InvalidCatalogName)
        {
            await server.DisposeAsync();
            throw new StartupFailure($"There is no database yet in {server.Folder}: start the portal once, or set TEAMCIRCLE_DATA to the folder that holds it.", nothing);
        }
        catch
        {
            await server.DisposeAsync();
            throw;
        }
    }

    /// <summary>Opens a connection that acts as the owner, with the texts of dates and numbers that a backup is written in.</summary>
    /// <exception cref="StartupFailure">The sign-in may not act as the owner.</exception>
    internal static async Task<NpgsqlConnection> OpenAsOwnerAsync(string connection, CancellationToken stop)
    {
        const string Settings = $"-c role={Migrate.Owner} -c timezone=UTC -c datestyle=ISO -c intervalstyle=postgres -c bytea_output=hex -c extra_float_digits=1";
        var database = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connection) { Options = Settings, Pooling = false, CommandTimeout = 0 }.ConnectionString);
        try
        {
            await database.OpenAsync(stop);
            return database;
        }
        catch (PostgresException refused) when (refused.SqlState is PostgresErrorCodes.InvalidParameterValue or PostgresErrorCodes.InsufficientPrivilege)
        {
            await database.DisposeAsync();
            throw new StartupFailure($"The sign-in of {Setting} may not act as {Migrate.Owner}: name the one that ran 'TeamCircle.Cli migrate', or a superuser.", refused);
        }
        catch
        {
            await database.DisposeAsync();
            throw;
        }
    }
}
