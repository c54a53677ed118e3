using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Data.Account;

namespace TeamCircle.Data;

/// <summary>Brings a database to this portal's schema: roles, schemas, extension, then the migrations as the owner.</summary>
/// <remarks>
/// Two processes that start at once wait for each other (a lock of the database for the set-up, EF Core's own for the
/// migrations). The sign-in must be allowed to create roles the first time; afterwards it needs only to be a member of the owner.
/// </remarks>
public static class Migrate
{
    public const string Owner = "teamcircle_owner";
    public const string App = "teamcircle_app";

    /// <param name="connection">A sign-in of a superuser, or of a role that may create roles and schemas in this database.</param>
    /// <param name="appPassword">The application role's password, set where given; none for the private embedded server.</param>
    /// <exception cref="StartupFailure">A newer portal brought the database to a schema on which this one may not serve.</exception>
    public static Task RunAsync(string connection, string? appPassword = null, CancellationToken stop = default) =>
        RunAsync(connection, appPassword, null, stop);

    /// <summary>Brings an empty database to the schema that an earlier release left, for the rows of its backup.</summary>
    /// <param name="connection">As for <see cref="RunAsync(string, string?, CancellationToken)"/>.</param>
    /// <param name="migrations">All that the database is to have, as <c>schema migration</c>; this portal knows them.</param>
    internal static Task ToAsync(string connection, IReadOnlyList<string> migrations, CancellationToken stop) => RunAsync(connection, null, migrations, stop);

    /// <summary>All migrations that this portal knows, as <c>schema migration</c>.</summary>
    internal static IEnumerable<string> Known()
    {
        using var portal = Contexts.Portal("Host=none"); // only asked what it knows
        using var account = Contexts.Account("Host=none");
        return [.. portal.Database.GetMigrations().Select(m => $"{PortalDb.Schema} {m}"), .. account.Database.GetMigrations().Select(m => $"{AccountDb.Schema} {m}")];
    }

    private static async Task RunAsync(string connection, string? appPassword, IReadOnlyList<string>? migrations, CancellationToken stop)
    {
        await PrepareAsync(connection, appPassword, stop);
        var asOwner = new NpgsqlConnectionStringBuilder(connection) { Options = $"-c role={Owner}", Pooling = false }.ConnectionString;
        await using (var portal = Contexts.Portal(asOwner))
            await MigrateAsync(portal, Last(PortalDb.Schema), stop);
        await using (var account = Contexts.Account(asOwner))
            await MigrateAsync(account, Last(AccountDb.Schema), stop);
        await ExecuteAsync(asOwner, LetAppCheck, stop);

        string? Last(string schema) => migrations?.Where(m => m.StartsWith(schema + " ", StringComparison.Ordinal)).Max(StringComparer.Ordinal)?[(schema.Length + 1)..];
    }

    /// <summary>Checks that this portal may serve on the database's schema: its own, or a newer one that only added to it; changes nothing.</summary>
    /// <param name="connection">Signs in as the application role.</param>
    /// <exception cref="StartupFailure">It is older, or so much newer that a portal of this version would not fit.</exception>
    public static async Task CheckAsync(string connection, CancellationToken stop = default)
    {
        await using var portal = Contexts.Portal(connection);
        await using var account = Contexts.Account(connection);
        foreach (DbContext db in new DbContext[] { portal, account })
            if (await MissingAsync(db, stop) > 0)
                throw new StartupFailure("The database is older than this portal, or empty: take a backup, then run 'TeamCircle.Cli migrate'.");
    }

    private static async Task MigrateAsync(DbContext db, string? last, CancellationToken stop)
    {
        if (await MissingAsync(db, stop) == 0)
            return;
        await SchemaFloor.StateAsync(db, last, stop); // first: a portal that starts while the schema changes goes by what it becomes
        await db.Database.MigrateAsync(last, stop);
    }

    /// <summary>How many of this portal's migrations the database lacks; refuses a newer one unless it states that this portal may serve on it.</summary>
    private static async Task<int> MissingAsync(DbContext db, CancellationToken stop)
    {
        var known = db.Database.GetMigrations().ToHashSet();
        var applied = (await db.Database.GetAppliedMigrationsAsync(stop)).ToList();
        var missing = known.Except(applied).Count();
        var newer = applied.FindLast(m => !known.Contains(m));
        if (newer is not null && (missing > 0 || !await SchemaFloor.AdmitsAsync(db, known, stop)))
            throw new StartupFailure($"The database was made by a newer portal (it has {newer}), on whose schema this one may not serve: start that one, or restore a backup from before the upgrade.");
        return missing;
    }

    private static async Task ExecuteAsync(string connection, string sql, CancellationToken stop)
    {
        await using var db = new NpgsqlConnection(connection);
        await db.OpenAsync(stop);
        await RunAsync(db, sql, stop);
    }

    private static async Task PrepareAsync(string connection, string? appPassword, CancellationToken stop)
    {
        await using var db = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connection) { Pooling = false }.ConnectionString);
        await db.OpenAsync(stop);
        await using var transaction = await db.BeginTransactionAsync(stop);
        // Roles belong to the whole server: the lock is taken on a fixed number there is only one of per database,
        // and a role that another database's set-up made meanwhile is no error.
        await RunAsync(db, "select pg_advisory_xact_lock(7202611)", stop);
        await RunAsync(db, Roles, stop);
        await RunAsync(db, Schemas, stop);
        if (appPassword is not null)
            await SetPasswordAsync(db, appPassword, stop);
        await transaction.CommitAsync(stop);
    }

    private static async Task SetPasswordAsync(NpgsqlConnection db, string password, CancellationToken stop)
    {
        await using var quote = new NpgsqlCommand("select quote_literal($1)", db) { Parameters = { new() { Value = password } } };
        var literal = (string)(await quote.ExecuteScalarAsync(stop))!;
        await RunAsync(db, $"alter role {App} password {literal}", stop);
    }

    private static async Task RunAsync(NpgsqlConnection db, string sql, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(sql, db);
        await command.ExecuteNonQueryAsync(stop);
    }

    // The application signs in as teamcircle_app, which owns nothing and inherits nothing: each transaction takes one
    // of the four roles by name (docs/decisions/0002-roles-and-row-level-security.md).
    private const string Roles = """
        do $$
        declare r text;
        begin
            foreach r in array array['teamcircle_owner', 'teamcircle_person', 'teamcircle_agency', 'teamcircle_job', 'teamcircle_account'] loop
                begin
                    if not exists (select 1 from pg_roles where rolname = r) then
                        execute format('create role %I nologin', r);
                    end if;
                exception when duplicate_object or unique_violation then null;
                end;
            end loop;
            begin
                if not exists (select 1 from pg_roles where rolname = 'teamcircle_app') then
                    create role teamcircle_app login noinherit;
                end if;
            exception when duplicate_object or unique_violation then null;
            end;
            foreach r in array array['teamcircle_person', 'teamcircle_agency', 'teamcircle_job', 'teamcircle_account'] loop
                begin
                    if not pg_has_role('teamcircle_app', r, 'member') then
                        execute format('grant %I to teamcircle_app', r);
                    end if;
                exception when unique_violation then null;
                end;
            end loop;
            -- not 'member': since version 16 who makes a role may administer it without being able to take it
            if not pg_has_role(current_user, 'teamcircle_owner', 'usage') then
                execute format('grant teamcircle_owner to %I', current_user);
            end if;
        end $$;
        """;

    private const string Schemas = """
        create extension if not exists btree_gist;
        create extension if not exists pg_trgm;
        create schema if not exists portal authorization teamcircle_owner;
        create schema if not exists account authorization teamcircle_owner;
        """;

    // The portal looks at start whether it fits the schema; it signs in as the application role and has no other then.
    private const string LetAppCheck = """
        grant usage on schema portal, account to teamcircle_app;
        grant select on portal.migrations, account.migrations to teamcircle_app;
        """;
}
