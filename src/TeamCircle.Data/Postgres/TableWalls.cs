using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>The triggers and the forced row-level security of tables, taken down inside a transaction and put back as they were.</summary>
/// <remarks>COPY does not load a table whose policies bind the one who loads; the triggers would write a second trail.</remarks>
internal sealed class TableWalls
{
    private readonly string _raise;

    private TableWalls(string raise) => _raise = raise;

    /// <summary>Holds each table for this transaction alone, from here to its end.</summary>
    public static async Task<TableWalls> LowerAsync(NpgsqlConnection database, List<TableShape> tables, CancellationToken stop)
    {
        const string Question = """
            select format('alter table %s no force row level security', t), format('alter table %s force row level security', t)
            from unnest($1::text[]) t where (select relforcerowsecurity from pg_class where oid = t::regclass)
            union all
            select format('alter table %s disable trigger %I', g.tgrelid::regclass, g.tgname), format('alter table %s enable trigger %I', g.tgrelid::regclass, g.tgname)
            from unnest($1::text[]) t join pg_trigger g on g.tgrelid = t::regclass where not g.tgisinternal and g.tgenabled = 'O'
            """;
        var names = tables.Select(t => t.Name).ToArray();
        await using var held = new NpgsqlCommand($"lock table {string.Join(", ", names)} in access exclusive mode", database);
        await held.ExecuteNonQueryAsync(stop);
        var (lower, raise) = (new List<string>(), new List<string>());
        await using (var walls = new NpgsqlCommand(Question, database) { Parameters = { new() { Value = names } } })
        await using (var reader = await walls.ExecuteReaderAsync(stop))
            while (await reader.ReadAsync(stop))
            {
                lower.Add(reader.GetString(0));
                raise.Add(reader.GetString(1));
            }
        await using var down = new NpgsqlCommand(string.Join(";", lower), database);
        await down.ExecuteNonQueryAsync(stop);
        return new TableWalls(string.Join(";", raise));
    }

    public async Task RaiseAsync(NpgsqlConnection database, CancellationToken stop)
    {
        await using var up = new NpgsqlCommand(_raise, database);
        await up.ExecuteNonQueryAsync(stop);
    }
}
