using Npgsql;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Postgres;

public sealed class PortalDatabaseTests(PgAssembly server)
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

    [Fact]
    public async Task Database_of_a_newer_portal_is_refused_also_where_migrating_is_allowed()
    {
        await using var database = await DatabaseAsync();
        await RunAsync(database, "insert into account.migrations values ('99991231000000_Later', '99')");

        Assert.Contains("newer portal", await RefusedAsync(database.ConnectionString(Migrate.App)), StringComparison.Ordinal);
        Assert.Contains("newer portal", await RefusedAsync(database.ConnectionString(), mayMigrate: true), StringComparison.Ordinal);
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
