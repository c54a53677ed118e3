using System.IO.Compression;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Data.Account;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Postgres;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Postgres;

/// <summary>An agency with a team, a logged visit and an account: what the tests save and bring back.</summary>
public sealed class SavedAgency(PgAssembly server) : IAsyncLifetime
{
    public TestDatabase Database { get; } = new(server);
    public TestAgency Agency { get; private set; } = null!;
    public TestTeam Team { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        await Database.InitializeAsync();
        Agency = await TestAgency.CreateAsync(Database);
        Team = await TestTeam.CreateAsync(Agency);
        await LogAsync(await Team.VisitAsync());
        await using var account = Contexts.Account(Database.ConnectionString());
        account.Add(new AccountRow { UserName = "odalys@tallowfern.example", Email = "odalys@tallowfern.example", PasswordHash = "a\ttab, a line\nand a \\" });
        await account.SaveChangesAsync();
    }

    public async Task LogAsync(VisitRow visit)
    {
        var logged = await Agency.Get<LogSession>().RunAsync(
            await Team.CallerAsync(Team.Odalys), Guid.CreateVersion7(), new LogSession.Input { Visits = [visit.Id], Note = "a line\nand a \\ tab\t" });
        Assert.Empty(logged.Problems);
    }

    public async ValueTask DisposeAsync()
    {
        await Agency.DisposeAsync();
        await Database.DisposeAsync();
    }
}

public sealed class BackupTests(PgAssembly server, SavedAgency saved) : IClassFixture<SavedAgency>, IAsyncLifetime
{
    private const string SystemPrograms = "/usr/lib/postgresql/15/bin";
    private readonly string _folder = ScratchFolder.Make();
    private readonly TestDatabase _to = new(server);
    private readonly TestDatabase _from = saved.Database;
    private readonly TestAgency _agency = saved.Agency;
    private readonly TestTeam _team = saved.Team;

    private string BackupFile => Path.Combine(_folder, "backup.zip");

    public ValueTask InitializeAsync() => _to.InitializeAsync();

    public async ValueTask DisposeAsync()
    {
        await _to.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Restored_database_has_every_row_and_the_same_hashes()
    {
        var taken = await TakeAsync(_from.ConnectionString());

        await RestoreAsync(_to.ConnectionString());

        var again = await TakeAsync(_to.ConnectionString(), "again.zip");
        Assert.Equal(Rows(taken), Rows(again));
        Assert.Equal(taken.Sequences, again.Sequences);
        Assert.Equal(1, taken.Tables.Single(t => t.Name == "account.accounts").Rows);
        Assert.True(taken.Tables.Single(t => t.Name == "portal.sessions").Rows > 0);
        Assert.Equal(await CountAsync("select count(*) from portal.changes", _from), taken.Tables.Single(t => t.Name == "portal.changes").Rows);
    }

    [Fact]
    public async Task Backup_holds_every_table_of_both_schemas()
    {
        var taken = await TakeAsync(_from.ConnectionString());

        var tables = await CountAsync("select count(*) from pg_tables where schemaname in ('portal', 'account') and tablename <> 'migrations'", _from);
        Assert.Equal(tables, taken.Tables.Count);
    }

    [Fact]
    public async Task Portal_goes_on_in_the_restored_database_with_its_walls_up_and_its_trail_written()
    {
        await TakeAsync(_from.ConnectionString());
        await RestoreAsync(_to.ConnectionString());
        await using var moved = _agency.MovedTo(_to);

        var jonah = await moved.AddAsync(new LearnerRow { Code = "NEW", Name = "Someone new", MostMinutesADay = 90 });

        Assert.Equal(1, await moved.Portal.ReadAsync(moved.WholeAgency, db => db.Changes.CountAsync(c => c.TableName == "learners" && c.LearnerId == jonah.Id)));
        Assert.Equal(0, await moved.Portal.ReadAsync(moved.Person(moved.Terminal), db => db.Learners.CountAsync()));
        const string Walls = """
            select string_agg(concat(relname, relrowsecurity, relforcerowsecurity), ' ' order by relname) || (
                select string_agg(concat(tgname, tgenabled), ' ' order by tgrelid::regclass::text, tgname) from pg_trigger where not tgisinternal)
            from pg_class where relnamespace = 'portal'::regnamespace and relkind = 'r'
            """;
        Assert.Equal(await AskAsync(_from.ConnectionString(), Walls), await AskAsync(_to.ConnectionString(), Walls));
    }

    [Fact]
    public async Task Backup_taken_while_saves_go_on_shows_one_moment()
    {
        var before = await CountAsync("select count(*) from portal.sessions", _from);
        var days = 16;
        async Task SaveAsync() => await saved.LogAsync(await _team.VisitAsync(day: new LocalDate(2026, 9, days++)));

        // After each table that is done one more visit is logged: a plain read of the next tables would hold parts of them.
        var taken = await new TakeBackup(_agency.Clock).RunAsync(
            _from.ConnectionString(), BackupFile, _ => { if (days < 28) SaveAsync().GetAwaiter().GetResult(); });
        await RestoreAsync(_to.ConnectionString());

        Assert.Equal(28, days);
        Assert.Equal(before + 12, await CountAsync("select count(*) from portal.sessions", _from));
        Assert.Equal(before, taken.Tables.Single(t => t.Name == "portal.sessions").Rows);
        Assert.Equal(before, await CountAsync("select count(*) from portal.changes where table_name = 'sessions'", _to));
        Assert.Equal(before, await CountAsync("select count(*) from portal.visits", _to));
    }

    [Fact]
    public async Task Backup_goes_to_another_version_of_PostgreSQL_and_back()
    {
        Assert.SkipUnless(Directory.Exists(SystemPrograms), "This machine has no " + SystemPrograms);
        var taken = await TakeAsync(_from.ConnectionString());
        await using var other = await PostgresLauncher.StartAsync(
            new PostgresOptions(Path.Combine(_folder, "other")) { Durable = false, ProgramFolder = SystemPrograms });
        await other.EnsureDatabaseAsync("moved");
        await Migrate.RunAsync(other.ConnectionString("moved"));

        await RestoreAsync(other.ConnectionString("moved"));
        await TakeAsync(other.ConnectionString("moved"), "other.zip");
        await RestoreAsync(_to.ConnectionString(), "other.zip");

        Assert.Equal(Rows(taken), Rows(await TakeAsync(_to.ConnectionString(), "back.zip")));
    }

    [Fact]
    public async Task Owner_who_is_no_superuser_takes_and_restores_a_backup()
    {
        await ExecuteAsync(_from.ConnectionString(), """
            do $$ begin create role keeper login in role teamcircle_owner; exception when duplicate_object then null; end $$
            """);
        var taken = await TakeAsync(_from.ConnectionString("keeper"));

        await RestoreAsync(_to.ConnectionString("keeper"));

        Assert.Equal(Rows(taken), Rows(await TakeAsync(_to.ConnectionString("keeper"), "again.zip")));
    }

    [Fact]
    public async Task Damaged_table_is_named_and_nothing_is_restored()
    {
        await TakeAsync(_from.ConnectionString());
        await using (var zip = await ZipFile.OpenAsync(BackupFile, ZipArchiveMode.Update))
        await using (var rows = await zip.GetEntry("tables/portal.people.copy")!.OpenAsync())
        {
            rows.Position = 12;
            rows.WriteByte((byte)'9');
        }

        Assert.Contains("is damaged (portal.people)", await RefusedAsync(_to), StringComparison.Ordinal);
    }

    [Fact]
    public async Task File_that_was_cut_short_is_refused()
    {
        await TakeAsync(_from.ConnectionString());
        await using (var file = File.OpenWrite(BackupFile))
            file.SetLength(file.Length - 100);

        Assert.Contains("is no backup of this portal, or is damaged", await RefusedAsync(_to), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Database_that_holds_rows_is_refused()
    {
        await TakeAsync(_from.ConnectionString());
        await using var other = await TestAgency.CreateAsync(_to, "OTHER");

        var refused = await Assert.ThrowsAsync<StartupFailure>(() => RestoreAsync(_to.ConnectionString()));

        Assert.Contains("already holds rows (portal.agencies)", refused.Message, StringComparison.Ordinal);
        Assert.Equal(1, await CountAsync("select count(*) from portal.agencies", _to));
    }

    [Fact]
    public async Task Backup_of_another_schema_is_refused_and_the_line_says_which_is_newer()
    {
        await TakeAsync(_from.ConnectionString());
        await ExecuteAsync(_to.ConnectionString(), "insert into portal.migrations values ('99990101000000_Later', '1')");
        Assert.Contains("by an older portal (it lacks portal 99990101000000_Later)", await RefusedAsync(_to), StringComparison.Ordinal);

        await ExecuteAsync(_to.ConnectionString(), "delete from portal.migrations where migration_id like '9%' or migration_id = (select min(migration_id) from portal.migrations)");
        Assert.Contains("by a newer portal", await RefusedAsync(_to), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Application_role_may_neither_take_nor_restore_a_backup()
    {
        var refused = await Assert.ThrowsAsync<StartupFailure>(() => TakeAsync(_from.ConnectionString(Migrate.App)));

        Assert.Contains("may not act as teamcircle_owner", refused.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(BackupFile));
    }

    [Fact]
    public async Task File_is_for_its_owner_alone_and_never_written_over()
    {
        await TakeAsync(_from.ConnectionString());

        var refused = await Assert.ThrowsAsync<StartupFailure>(() => TakeAsync(_from.ConnectionString()));

        Assert.Contains("exists already", refused.Message, StringComparison.Ordinal);
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(BackupFile));
    }

    private Task<BackupManifest> TakeAsync(string connection, string name = "backup.zip") =>
        new TakeBackup(_agency.Clock).RunAsync(connection, Path.Combine(_folder, name), _ => { });

    private Task<BackupManifest> RestoreAsync(string connection, string name = "backup.zip") =>
        RestoreBackup.RunAsync(connection, Path.Combine(_folder, name), _ => { });

    private async Task<string> RefusedAsync(TestDatabase into)
    {
        var refused = await Assert.ThrowsAsync<StartupFailure>(() => RestoreAsync(into.ConnectionString()));
        Assert.Equal(0, await CountAsync("select (select count(*) from portal.agencies) + (select count(*) from account.accounts)", into));
        Assert.DoesNotContain('\n', refused.Message);
        return refused.Message;
    }

    private static IEnumerable<(string, long, string)> Rows(BackupManifest manifest) => manifest.Tables.Select(t => (t.Name, t.Rows, t.Sha256));

    private static async Task<long> CountAsync(string sql, TestDatabase database) => (long)(await AskAsync(database.ConnectionString(), sql))!;

    private static async Task<object?> AskAsync(string connection, string sql)
    {
        await using var bare = new NpgsqlConnection(connection + ";Pooling=false");
        await bare.OpenAsync();
        await using var command = new NpgsqlCommand(sql, bare);
        return await command.ExecuteScalarAsync();
    }

    private static async Task ExecuteAsync(string connection, string sql) => await AskAsync(connection, sql);
}
