using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>The foreign keys, exclusions and indexes of tables, taken down inside a transaction and made anew: the database checks each over
/// all rows at once, where it would otherwise look for every row by itself.</summary>
/// <remarks>Keys stay: other tables refer to them.</remarks>
internal sealed class TableChecks
{
    private readonly List<string> _make;

    private TableChecks(List<string> make) => _make = make;

    /// <param name="tables">Held for this transaction alone.</param>
    public static async Task<TableChecks> LiftAsync(NpgsqlConnection database, List<TableShape> tables, CancellationToken stop)
    {
        const string Question = """
            select format('alter table %s drop constraint %I', c.conrelid::regclass, c.conname),
                   format('alter table %s add constraint %I %s', c.conrelid::regclass, c.conname, pg_get_constraintdef(c.oid)),
                   case c.contype when 'x' then 2 else 3 end as turn
            from pg_constraint c where c.conrelid = any ($1::regclass[]) and c.contype in ('f', 'x')
            union all
            select format('drop index %s', i.indexrelid::regclass), pg_get_indexdef(i.indexrelid), 1
            from pg_index i where i.indrelid = any ($1::regclass[]) and not exists (select from pg_constraint c where c.conindid = i.indexrelid)
            order by turn, 2
            """;
        var (lift, make) = (new List<string>(), new List<string>());
        await using (var checks = new NpgsqlCommand(Question, database) { Parameters = { new() { Value = tables.Select(t => t.Name).ToArray() } } })
        await using (var reader = await checks.ExecuteReaderAsync(stop))
            while (await reader.ReadAsync(stop))
            {
                lift.Add(reader.GetString(0));
                make.Add(reader.GetString(1));
            }
        await ExecuteAsync(database, string.Join(";", lift), stop);
        return new TableChecks(make);
    }

    /// <summary>Indexes first, which help to check the rest.</summary>
    /// <param name="done">Told how many are made, of how many.</param>
    /// <exception cref="PostgresException">A row breaks one of them: nothing of the transaction stays.</exception>
    public async Task MakeAsync(NpgsqlConnection database, Action<int, int> done, CancellationToken stop)
    {
        for (var i = 0; i < _make.Count; i++)
        {
            await ExecuteAsync(database, _make[i], stop);
            done(i + 1, _make.Count);
        }
    }

    private static async Task ExecuteAsync(NpgsqlConnection database, string sql, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(sql, database) { CommandTimeout = 0 };
        await command.ExecuteNonQueryAsync(stop);
    }
}
