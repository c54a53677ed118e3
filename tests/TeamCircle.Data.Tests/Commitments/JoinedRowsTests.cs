using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>Queries joined into one statement against the same queries one by one.</summary>
public sealed class JoinedRowsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const string AlwaysInParts =
        "-c parallel_setup_cost=0 -c parallel_tuple_cost=0 -c min_parallel_table_scan_size=0 -c max_parallel_workers_per_gather=2";

    private static readonly RowFilter Bound = new(7, [3, 5]) { IsBound = true };

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Joined_queries_give_the_same_rows_in_the_same_order(bool inParts)
    {
        var seed = Random.Shared.Next();
        await using var db = await WithTableAsync(inParts ? AlwaysInParts : "");
        var random = new Random(seed);
        for (var round = 0; round < 20; round++)
        {
            var queries = Enumerable.Range(0, random.Next(1, 16)).Select(_ => Query(random)).ToList();
            var (one, joined) = (new List<string>(), new List<string>());
            Ask(new OneByOne(Connection(db)), queries, one);
            var reader = new JoinedRows(db, Bound);
            Ask(reader, queries, joined);
            Assert.Empty(joined);
            await reader.RunAsync(TestContext.Current.CancellationToken);
            Assert.True(one.SequenceEqual(joined), $"seed {seed}, round {round}:\n{string.Join('\n', queries)}");
        }
    }

    [Fact]
    public async Task Rows_that_the_database_reads_in_parts_keep_their_order_too()
    {
        await using var db = await WithTableAsync(AlwaysInParts);
        var plan = "";
        await using (var explain = new NpgsqlCommand("explain select (select array_agg(record_send(q)) from (select n, day, code, flag from public.many where n > 0 order by n desc) q)", Connection(db)))
        await using (var rows = await explain.ExecuteReaderAsync(TestContext.Current.CancellationToken))
        {
            while (await rows.ReadAsync(TestContext.Current.CancellationToken))
                plan += rows.GetString(0) + '\n';
        }
        Assert.Contains("Workers Planned: 2", plan, StringComparison.Ordinal); // or this test shows nothing
        var read = new List<int>();
        var joined = new JoinedRows(db, Bound);
        joined.Read("select n from public.many where n > 0 order by n desc", row => read.Add(row.Int()));
        await joined.RunAsync(TestContext.Current.CancellationToken);
        Assert.Equal(Enumerable.Range(1, 5000).Reverse(), read);
    }

    [Fact]
    public async Task Queries_name_the_values_of_their_filter_and_may_hold_braces()
    {
        await using var db = await WithTableAsync("");
        var read = new List<(int, string)>();
        var joined = new JoinedRows(db, Bound);
        joined.Read("select n, '{0}' || n from public.many where n = any (@learners) or n = @agency or n = any ('{11}') order by n", row => read.Add((row.Int(), row.Text())));
        await joined.RunAsync(TestContext.Current.CancellationToken);
        Assert.Equal([(3, "{0}3"), (5, "{0}5"), (7, "{0}7"), (11, "{0}11")], read);
    }

    [Fact]
    public async Task Query_that_fails_leaves_the_connection_usable()
    {
        await using var db = await WithTableAsync("");
        var joined = new JoinedRows(db, Bound);
        joined.Read("select n from public.many", row => row.Int());
        joined.Read("select 1 / (n - n) from public.many", row => row.Int());
        Assert.Equal(PostgresErrorCodes.DivisionByZero, (await Assert.ThrowsAsync<PostgresException>(() => joined.RunAsync(TestContext.Current.CancellationToken))).SqlState);
        var count = 0;
        new OneByOne(Connection(db)).Read("select n from public.many", row => count += Math.Sign(row.Int()));
        Assert.Equal(5000, count);
    }

    private static void Ask(IRowReader reader, IReadOnlyList<string> queries, List<string> answers)
    {
        foreach (var query in queries)
        {
            reader.Then(() => answers.Add(query));
            reader.Read(query, row => answers.Add($"{row.Int()} {row.Day()} {row.CodeOrNull<DayOfWeek>()} {row.Text()} {row.Flag()}"));
        }
    }

    /// <summary>Some rows in an order that says where each stands: none, one, a few or all, with and without texts longer than what is read at once.</summary>
    private static string Query(Random random)
    {
        var text = random.Next(4) == 0 ? "repeat(t.words, 9000)" : "t.words";
        var where = random.Next(5) switch { 0 => "false", 1 => "t.n = 77", 2 => "t.n % 1000 = 3", 3 => "t.n between 4000 and 4020", _ => text == "t.words" ? "true" : "t.n < 30" };
        return $"select t.n, t.day, t.code, {text}, t.flag from public.many t where {where} order by t.flag{(random.Next(2) == 0 ? " desc" : "")}, t.n";
    }

    private static NpgsqlConnection Connection(PortalDb db) => (NpgsqlConnection)db.Database.GetDbConnection();

    private async Task<PortalDb> WithTableAsync(string settings)
    {
        var db = Contexts.Portal(new NpgsqlConnectionStringBuilder(database.ConnectionString()) { Options = settings }.ConnectionString);
        await db.Database.OpenConnectionAsync(TestContext.Current.CancellationToken);
        await using var make = new NpgsqlCommand("""
            drop table if exists public.many;
            create table public.many as select n, case when n % 7 > 0 then date '2026-01-01' + n end as day,
                (array[null, 'Monday', 'Friday', 'Sunday'])[n % 4 + 1] as code, 'ä' || n as words, n % 3 = 0 as flag
            from generate_series(1, 5000) n order by n % 101;
            analyze public.many
            """, Connection(db));
        await make.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        return db;
    }
}
