using Npgsql;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Seed;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Seed;

/// <summary>Made-up school years are the same from the same seed, hold to every rule of the database, and never come beside real learners.</summary>
public sealed class LoadSeedTests(PgAssembly server)
{
    // What one database gives and another does not: numbers from sequences, moments of saving, the agency and its terminal.
    private const string Given = "'{agency_id,group_no,together_no,recorded_at,recorded_by,written_at}'";

    private static readonly string[] Copied = ["visits", "sessions", "probes", "decisions", "visit_goals", "routines", "routine_versions", "practices", "trials"];

    [Fact]
    public async Task Same_seed_makes_the_same_rows_and_all_walls_and_checks_stand_afterwards()
    {
        await using var database = new TestDatabase(server);
        await database.InitializeAsync();
        var before = await RulesAsync(database);

        var first = await SeedAsync(database, "A", 7);
        var again = await SeedAsync(database, "B", 7);
        var other = await SeedAsync(database, "C", 8);

        Assert.Equal(first.Hash, again.Hash);
        Assert.NotEqual(first.Hash, other.Hash);
        Assert.Equal(await RowsAsync(database, first.Agency), await RowsAsync(database, again.Agency));
        Assert.NotEqual(await RowsAsync(database, first.Agency), await RowsAsync(database, other.Agency));
        Assert.Equal(before, await RulesAsync(database));
        Assert.Equal(["agencies", "imports", "people", "person_roles"], await ListAsync(database, $"select distinct table_name from portal.changes where agency_id = {first.Agency} order by 1"));
        Assert.Equal([first.Hash], await ListAsync(database, $"select after -> 'files' -> 0 ->> 'sha256' from portal.changes where agency_id = {first.Agency} and table_name = 'imports'"));
    }

    [Fact]
    public async Task Practices_are_such_as_a_team_could_have_recorded()
    {
        await using var database = new TestDatabase(server);
        await database.InitializeAsync();
        var made = await SeedAsync(database, "A", 3);

        var card = RoutineContent.Read((await ListAsync(database, "select content::text from portal.routine_versions order by id limit 1"))[0]);
        var records = (await ListAsync(database, "select record::text from portal.practices where learner_id = (select min(id) from portal.learners)")).ConvertAll(PracticeJson.Read);

        Assert.True(made.Practices > 2 * 15 && made.Trials == 6 * made.Practices);
        Assert.Empty(records.SelectMany(r => PracticeRules.Check(r, AgreedStep.Of(card))));
        Assert.Equal(["NoResponse", "Refused", "Response"], await ListAsync(database, "select distinct ending from portal.trials order by 1"));
        Assert.Equal(["0"], await ListAsync(database, "select count(*) from portal.sessions s where s.replaces is not null and not exists (select from portal.sessions o where o.agency_id = s.agency_id and o.id = s.replaces and not o.live and o.visit_id = s.visit_id)"));
    }

    [Fact]
    public async Task Nothing_is_made_beside_a_real_learner()
    {
        await using var database = new TestDatabase(server);
        await database.InitializeAsync();
        await using var agency = await TestAgency.CreateAsync(database);
        await ListAsync(database, $"""
            select set_config('app.person', '{agency.Terminal}', false), set_config('app.ground', 'a test', false);
            insert into portal.learners (agency_id, code, name, most_minutes_a_day) values ({agency.Id}, 'TF07', 'Wren', 90)
            """);

        var refused = await Assert.ThrowsAsync<StartupFailure>(() => SeedAsync(database, "A", 1));

        Assert.Contains("not made up", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["TALLOWFERN"], await ListAsync(database, "select code from portal.agencies"));
    }

    private static Task<LoadSeed.Made> SeedAsync(TestDatabase database, string code, int seed) =>
        LoadSeed.RunAsync(database.ConnectionString(), new(code, 3, seed), _ => { }, TestContext.Current.CancellationToken);

    /// <summary>Every constraint, index, trigger and policy of the tables, as the catalogue has them.</summary>
    private static Task<List<string>> RulesAsync(TestDatabase database) => ListAsync(database, """
        select rule from (
            select conrelid::regclass || ' ' || conname || ' ' || pg_get_constraintdef(oid) || ' ' || convalidated as rule from pg_constraint where connamespace = 'portal'::regnamespace
            union all select pg_get_indexdef(indexrelid) || ' ' || indisvalid from pg_index where indrelid in (select oid from pg_class where relnamespace = 'portal'::regnamespace)
            union all select pg_get_triggerdef(oid) || ' ' || tgenabled::text from pg_trigger where not tgisinternal
            union all select relname || ' ' || relrowsecurity || ' ' || relforcerowsecurity from pg_class where relnamespace = 'portal'::regnamespace and relkind = 'r') r
        order by rule collate "C"
        """);

    private static Task<List<string>> RowsAsync(TestDatabase database, int agency) => ListAsync(database, string.Join(" union all ", Copied.Select(table =>
        $"select '{table} ' || count(*) || ' ' || md5(string_agg(facts, ',' order by facts)) from (select (to_jsonb(t) - {Given}::text[] - {(table == "decisions" ? "'id'" : "''")})::text as facts from portal.{table} t where agency_id = {agency}) {table}")) + " order by 1");

    private static async Task<List<string>> ListAsync(TestDatabase database, string question)
    {
        await using var connection = new NpgsqlConnection(database.ConnectionString());
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await using var command = new NpgsqlCommand(question, connection);
        await using var rows = await command.ExecuteReaderAsync(TestContext.Current.CancellationToken);
        var all = new List<string>();
        while (await rows.ReadAsync(TestContext.Current.CancellationToken))
            all.Add(rows.GetValue(0).ToString()!);
        return all;
    }
}
