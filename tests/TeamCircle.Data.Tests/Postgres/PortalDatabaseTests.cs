using System.Diagnostics;
using System.Reflection;
using System.Security.Cryptography.X509Certificates;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Migrations.Operations;
using Npgsql;
using TeamCircle.Data.Migrations;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Postgres;

public sealed partial class PortalDatabaseTests(PgAssembly server)
{
    [Fact]
    public async Task Application_role_on_the_right_schema_is_let_in_and_answers()
    {
        await using var database = await DatabaseAsync();

        await using var portal = await OpenAsync(database.ConnectionString(Migrate.App), mayMigrate: false);

        Assert.True(await portal.AnswersAsync(default));
    }

    [Fact]
    public async Task Database_that_lacks_a_migration_is_refused_and_the_line_names_the_command()
    {
        await using var database = await DatabaseAsync();
        await RunAsync(database, "delete from portal.migrations");

        var line = await RefusedAsync(database.ConnectionString(Migrate.App));

        Assert.Contains("TeamCircle.Cli migrate", line, StringComparison.Ordinal);
    }

    // docs/decisions/0033-upgrade-while-serving.md
    [Fact]
    public async Task Newer_schema_serves_this_portal_while_it_states_so_and_refuses_it_when_it_does_not()
    {
        await using var database = await DatabaseAsync();
        await RunAsync(database, "insert into account.migrations values ('99991231000000_Later', '99')");

        await using (var portal = await OpenAsync(database.ConnectionString(Migrate.App), mayMigrate: false))
            Assert.True(await portal.AnswersAsync(default));

        await RunAsync(database, "create or replace function account.oldest_portal() returns text language sql immutable as $$ select '99991231000000_Later' $$");
        Assert.Contains("may not serve", await RefusedAsync(database.ConnectionString(Migrate.App)), StringComparison.Ordinal);
        Assert.Contains("may not serve", await RefusedAsync(database.ConnectionString(), mayMigrate: true), StringComparison.Ordinal);

        await RunAsync(database, "drop function account.oldest_portal()");
        Assert.Contains("newer portal", await RefusedAsync(database.ConnectionString(Migrate.App)), StringComparison.Ordinal);
    }

    /// <summary>A migration that lets older portals serve beside it only adds: what they read and write stays as it is.</summary>
    [Fact]
    public void Migration_that_lets_an_older_portal_serve_takes_nothing_away()
    {
        using var portal = Contexts.Portal("Host=none");
        using var account = Contexts.Account("Host=none");
        foreach (var (name, type) in new DbContext[] { portal, account }.SelectMany(db => db.GetService<IMigrationsAssembly>().Migrations))
        {
            if (type.GetCustomAttribute<OldestPortalAttribute>() is not { } stated)
                continue;
            Assert.True(string.CompareOrdinal(stated.Migration, name) < 0, name);
            foreach (var step in ((Migration)Activator.CreateInstance(type)!).UpOperations)
                Assert.True(OnlyAdds(step), $"{name}: {step.GetType().Name}");
        }
    }

    private static bool OnlyAdds(MigrationOperation step) => step switch
    {
        AddColumnOperation column => column.IsNullable || column.DefaultValue is not null || column.DefaultValueSql is not null || column.ComputedColumnSql is not null,
        SqlOperation sql => !NarrowingSql().IsMatch(sql.Sql),
        _ => step is CreateTableOperation or CreateIndexOperation or CreateSequenceOperation or AddForeignKeyOperation or InsertDataOperation or AlterDatabaseOperation or EnsureSchemaOperation,
    };

    [GeneratedRegex(@"\b(drop\s+(table|column|view|schema|sequence|type)|rename|set\s+not\s+null|alter\s+column\s+\w+\s+type|truncate)\b", RegexOptions.IgnoreCase)]
    private static partial Regex NarrowingSql();

    // OWASP ASVS 5.0.0, 12.3.1 and 12.3.2
    [Fact]
    public async Task Server_is_reached_encrypted_by_the_authority_that_was_named_and_by_no_other()
    {
        var folder = ScratchFolder.Make();
        await using (var server = await PostgresLauncher.StartAsync(new PostgresOptions(Path.Combine(folder, "server")) { Durable = false, OverTcp = true }))
        {
            await server.EnsureDatabaseAsync("portal");
            await Migrate.RunAsync(server.ConnectionString("portal"));
            await server.AllowSignInAsync();
            var checkedTo = new NpgsqlConnectionStringBuilder(server.ConnectionString("portal", Migrate.App)) { Host = "localhost", SslMode = SslMode.VerifyFull };
            var (known, unknown) = (TestAuthority.Make(folder), TestAuthority.Make(folder));
            Assert.Contains("offers no encryption", await RefusedAsync(With(checkedTo, known.File)), StringComparison.Ordinal);

            await EncryptAsync(server, known);

            await using (var portal = await OpenAsync(With(checkedTo, known.File), mayMigrate: false))
            await using (var source = NpgsqlDataSource.Create(portal.Connection))
            await using (var asked = source.CreateCommand("select ssl from pg_stat_ssl where pid = pg_backend_pid()"))
                Assert.Equal(true, await asked.ExecuteScalarAsync());
            Assert.Contains("can't prove who it is", await RefusedAsync(With(checkedTo, unknown.File)), StringComparison.Ordinal);
            checkedTo.Host = "127.0.0.1"; // the certificate is for localhost
            Assert.Contains("can't prove who it is", await RefusedAsync(With(checkedTo, known.File)), StringComparison.Ordinal);
            NpgsqlConnection.ClearAllPools();
        }
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("Host=database.tallowfern.example;Username=teamcircle_app;Password=secret")]
    [InlineData("Host=localhost,10.0.0.7:5433;Username=teamcircle_app;Password=secret")]
    [InlineData("Host=10.0.0.7;Username=teamcircle_app;Password=secret;SSL Mode=Require")]
    public async Task Server_on_another_machine_is_not_spoken_to_without_checked_encryption(string named)
    {
        var line = await RefusedAsync(named);

        Assert.Contains("SSL Mode=VerifyFull", line, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Superuser_is_refused_where_migrating_is_not_allowed()
    {
        await using var database = await DatabaseAsync();

        Assert.Contains(Migrate.App, await RefusedAsync(database.ConnectionString()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Superuser_who_may_migrate_hands_over_to_the_application_role()
    {
        await using var database = await DatabaseAsync();

        await using var portal = await OpenAsync(database.ConnectionString(), mayMigrate: true);

        Assert.Equal(Migrate.App, new NpgsqlConnectionStringBuilder(portal.Connection).Username);
        Assert.True(await portal.AnswersAsync(default));
    }

    // What a hosted PostgreSQL gives its customers: no superuser, but a role that may make roles and owns the database.
    [Theory]
    [InlineData(null)]
    [InlineData("/usr/lib/postgresql/15/bin")]
    public async Task Role_without_superuser_rights_migrates_an_empty_database_twice_and_the_portal_is_let_in(string? programs)
    {
        Assert.SkipUnless(programs is null || Directory.Exists(programs), "This machine has no " + programs);
        var folder = ScratchFolder.Make();
        await using (var hosted = await PostgresLauncher.StartAsync(new PostgresOptions(folder) { Durable = false, OverTcp = true, ProgramFolder = programs }))
        {
            await RunAsync(hosted.ConnectionString("postgres"), "create role admin login createrole");
            await RunAsync(hosted.ConnectionString("postgres"), "create database portal owner admin template template0");
            await hosted.AllowSignInAsync();
            var application = new NpgsqlConnectionStringBuilder(hosted.ConnectionString("portal", Migrate.App)) { Password = "a new one" };

            await PortalDatabase.MigrateAsync(hosted.ConnectionString("portal", "admin"), application.ConnectionString);
            await PortalDatabase.MigrateAsync(hosted.ConnectionString("portal", "admin"), null);

            await using var portal = await OpenAsync(application.ConnectionString, mayMigrate: false);
            Assert.True(await portal.AnswersAsync(default));
            NpgsqlConnection.ClearAllPools();
        }
        Directory.Delete(folder, recursive: true);
    }

    private static string With(NpgsqlConnectionStringBuilder connection, string authority) =>
        new NpgsqlConnectionStringBuilder(connection.ConnectionString) { RootCertificate = authority, Pooling = false }.ConnectionString;

    /// <summary>Gives the running server its certificate, with the key in a file that only its account reads.</summary>
    private static async Task EncryptAsync(PostgresServer server, TestAuthority authority)
    {
        var cluster = Path.Combine(server.Folder, "cluster");
        foreach (var (name, text) in new[] { ("server.crt", authority.Certificate.ExportCertificatePem()), ("server.key", authority.Certificate.GetRSAPrivateKey()!.ExportPkcs8PrivateKeyPem()) })
        {
            await File.WriteAllTextAsync(Path.Combine(cluster, name), text);
            if (OperatingSystem.IsWindows())
                continue;
            File.SetUnixFileMode(Path.Combine(cluster, name), UnixFileMode.UserRead | UnixFileMode.UserWrite);
            using var chown = Process.Start("chown", ["--reference", cluster, Path.Combine(cluster, name)]);
            await chown.WaitForExitAsync();
        }
        await RunAsync(server.ConnectionString("postgres"), "alter system set ssl = on");
        await RunAsync(server.ConnectionString("postgres"), "select pg_reload_conf()");
        await using var source = NpgsqlDataSource.Create(server.ConnectionString("postgres") + ";Pooling=false");
        await using var asked = source.CreateCommand("show ssl");
        while (await asked.ExecuteScalarAsync() is not "on")
            await Task.Yield();
    }

    private async Task<TestDatabase> DatabaseAsync()
    {
        var database = new TestDatabase(server);
        await database.InitializeAsync();
        return database;
    }

    private static Task<PortalDatabase> OpenAsync(string named, bool mayMigrate) =>
        PortalDatabase.OpenAsync(AppContext.BaseDirectory, named, mayMigrate, _ => { });

    private static async Task<string> RefusedAsync(string named, bool mayMigrate = false)
    {
        var failure = await Assert.ThrowsAsync<StartupFailure>(() => OpenAsync(named, mayMigrate));
        Assert.DoesNotContain('\n', failure.Message);
        return failure.Message;
    }

    private static Task RunAsync(TestDatabase database, string sql) => RunAsync(database.ConnectionString(), sql);

    private static async Task RunAsync(string connectionString, string sql)
    {
        await using var source = NpgsqlDataSource.Create(connectionString);
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }
}
