using Npgsql;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>Queries joined into one statement against the same queries one by one.</summary>
public sealed class JoinedRowsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const string AlwaysInParts = """
        set parallel_setup_cost = 0; set parallel_tuple_cost = 0; set min_parallel_table_scan_size = 0; set max_parallel_workers_per_gather = 2
        """;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Joined_queries_give_the_same_rows_in_the_same_order(bool inParts)
    {
        var seed = Random.Shared.Next();
        await using var connection = await WithTableAsync(inParts ? AlwaysInParts : "select");
        var random = new Random(seed);
        for (var round = 0; round < 20; round++)
        {
            var queries = Enumerable.Range(0, random.Next(1, 16)).Select(_ => Query(random)).ToList();
            var (one, joined) = (new List<string>(), new List<string>());
            Ask(new OneByOne(connection), queries, one);
            var reader = new JoinedRows(connection);
            Ask(reader, queries, joined);
            Assert.Empty(joined);
            reader.Run();
            Assert.True(one.SequenceEqual(joined), $"seed {seed}, round {round}:\n{string.Join('\n', queries)}");
        }
    }

    [Fact]
    public async Task Rows_that_the_database_reads_in_parts_keep_their_order_too()
    {
        await using var connection = await WithTableAsync(AlwaysInParts);
        var plan = "";
        await using (var explain = new NpgsqlCommand("explain select (select array_agg(record_send(q)) from (select n, day, code, flag from public.many where n > 0 order by n desc) q)", connection))
        await using (var rows = await explain.ExecuteReaderAsync(TestContext.Current.CancellationToken))
        {
            while (await rows.ReadAsync(TestContext.Current.CancellationToken))
                plan += rows.GetString(0) + '\n';
        }
        Assert.Contains("Workers Planned: 2", plan, StringComparison.Ordinal); // or this test shows nothing
        var read = new List<int>();
        var joined = new JoinedRows(connection);
        joined.Read("select n from public.many where n > 0 order by n desc", row => read.Add(row.Int()));
        joined.Run();
        Assert.Equal(Enumerable.Range(1, 5000).Reverse(), read);
    }

    [Fact]
    public async Task Query_that_fails_leaves_the_connection_usable()
    {
        await using var connection = await WithTableAsync("select");
        var joined = new JoinedRows(connection);
        joined.Read("select n from public.many", row => row.Int());
        joined.Read("select 1 / (n - n) from public.many", row => row.Int());
        Assert.Equal(PostgresErrorCodes.DivisionByZero, Assert.Throws<PostgresException>(joined.Run).SqlState);
        var count = 0;
        new OneByOne(connection).Read("select n from public.many", row => count += Math.Sign(row.Int()));
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

    private async Task<NpgsqlConnection> WithTableAsync(string settings)
    {
        var connection = new NpgsqlConnection(database.ConnectionString());
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await using var make = new NpgsqlCommand($"""
            drop table if exists public.many;
            create table public.many as select n, case when n % 7 > 0 then date '2026-01-01' + n end as day,
                (array[null, 'Monday', 'Friday', 'Sunday'])[n % 4 + 1] as code, 'ä' || n as words, n % 3 = 0 as flag
            from generate_series(1, 5000) n order by n % 101;
            analyze public.many; {settings}
            """, connection);
        await make.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        return connection;
    }
}
