using System.Security.Cryptography;
using System.Text;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>The database that the portal and the terminal program work on: the private server's, or one that is named.</summary>
public sealed class PortalDatabase : IAsyncDisposable
{
    internal const string Name = "teamcircle";
    private const string AppSetting = "ConnectionStrings__TeamCircle", ReadsSetting = "ConnectionStrings__TeamCircleReads";
    private readonly PostgresServer? _server;

    private PortalDatabase(string connection, PostgresServer? server) => (Connection, _server) = (connection, server);

    /// <summary>Signs in as the application role.</summary>
    public string Connection { get; }

    /// <param name="named"><c>ConnectionStrings__TeamCircle</c>, or null or empty for the private server.</param>
    /// <param name="mayMigrate">Whether a named database may be brought to this portal's schema; the private one always is.</param>
    /// <param name="note">Told what a person may want to know, a line at a time.</param>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public static Task<PortalDatabase> OpenAsync(string contentRoot, string? named, bool mayMigrate, Action<string> note, CancellationToken stop = default) =>
        string.IsNullOrWhiteSpace(named) ? StartPrivateAsync(contentRoot, note, stop) : ReachAsync(AppSetting, named, mayMigrate, stop);

    /// <summary>Holds the connection string for long readings to what the portal's own is held to.</summary>
    /// <param name="reads"><c>ConnectionStrings__TeamCircleReads</c>, or null or empty.</param>
    /// <returns>The same; null where there is none.</returns>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public static async Task<string?> CheckReadsAsync(string? reads, CancellationToken stop = default) =>
        string.IsNullOrWhiteSpace(reads) ? null : (await ReachAsync(ReadsSetting, reads, mayMigrate: false, stop)).Connection;

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

    internal static PostgresOptions PrivateOptions(string contentRoot, Action<string> note)
    {
        var folders = PortalFolders.From(contentRoot);
        return new PostgresOptions(folders.Postgres)
        {
            FolderIsChosen = folders.IsChosen,
            SearchFrom = [contentRoot, AppContext.BaseDirectory],
            Note = note,
        };
    }

    /// <summary>Makes the private server's database where it is missing, and brings it to this portal's schema.</summary>
    internal static async Task MakeReadyAsync(PostgresServer server, CancellationToken stop)
    {
        await server.EnsureDatabaseAsync(Name, stop: stop);
        await Migrate.RunAsync(server.ConnectionString(Name), stop: stop);
        await server.AllowSignInAsync(stop);
    }

    private static async Task<PortalDatabase> StartPrivateAsync(string contentRoot, Action<string> note, CancellationToken stop)
    {
        var server = await PostgresLauncher.StartAsync(PrivateOptions(contentRoot, note), stop);
        try
        {
            await MakeReadyAsync(server, stop);
            return new PortalDatabase(server.ConnectionString(Name, Migrate.App), server);
        }
        catch
        {
            await server.DisposeAsync();
            throw;
        }
    }

    /// <summary>Brings a named database to this portal's schema, as <c>TeamCircle.Cli migrate</c> does.</summary>
    /// <param name="owner"><c>ConnectionStrings__TeamCircleOwner</c>: may create roles the first time, later a member of the owner.</param>
    /// <param name="app"><c>ConnectionStrings__TeamCircle</c>, whose password the application role is given; null leaves it as it is.</param>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public static Task MigrateAsync(string owner, string? app, CancellationToken stop = default) =>
        NamedServer.ReachAsync(OwnerDatabase.Setting, owner, async () =>
        {
            var portal = new NpgsqlConnectionStringBuilder(app);
            await Migrate.RunAsync(owner, portal.Username == Migrate.App ? portal.Password : null, stop);
            return true;
        });

    private static Task<PortalDatabase> ReachAsync(string variable, string named, bool mayMigrate, CancellationToken stop) =>
        NamedServer.ReachAsync(variable, named, async () =>
        {
            if (!await IsPowerfulAsync(named, stop))
            {
                await Migrate.CheckAsync(named, stop);
                return new PortalDatabase(named, null);
            }
            return mayMigrate
                ? new PortalDatabase(await HandOverAsync(named, stop), null)
                : throw new StartupFailure($"{variable} signs in as a role that row-level security does not bind: name the user {Migrate.App}, which 'TeamCircle.Cli migrate' makes.");
        });

    /// <summary>True for a superuser, for one who may make roles or pass row-level security, and for a member of the owner.</summary>
    private static async Task<bool> IsPowerfulAsync(string named, CancellationToken stop)
    {
        const string Question = $"""
            select rolsuper or rolcreaterole or rolbypassrls or exists (
                select from pg_auth_members m join pg_roles o on o.oid = m.roleid where o.rolname = '{Migrate.Owner}' and m.member = r.oid)
            from pg_roles r where rolname = current_user
            """;
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(named) { Pooling = false }.ConnectionString);
        await connection.OpenAsync(stop);
        await using var command = new NpgsqlCommand(Question, connection);
        return await command.ExecuteScalarAsync(stop) is true;
    }

    /// <summary>Migrates as the powerful role and gives the application role's connection; the portal never works as the first.</summary>
    private static async Task<string> HandOverAsync(string named, CancellationToken stop)
    {
        var application = new NpgsqlConnectionStringBuilder(named);
        // The same at each start, so that two portals on one server do not lock each other out.
        var password = application.Password is { Length: > 0 } secret
            ? Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(secret), Encoding.UTF8.GetBytes(Migrate.App)))
            : null;
        await Migrate.RunAsync(named, password, stop);
        (application.Username, application.Password) = (Migrate.App, password);
        return application.ConnectionString;
    }
}
