using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>A table as it stands in a database: how to copy it out and in. All names are quoted where they need it.</summary>
internal sealed record TableShape(string Name, string[] Columns, string[] Key, string[] RefersTo)
{
    // A transaction's number means something to one server only; in a backup it is 0, and sealing begins anew after a restore.
    private static readonly HashSet<string> OfOneServer = ["portal.changes.tx", "portal.blocks.horizon"];

    public string CopyOut =>
        $"copy (select {string.Join(", ", Columns.Select(Value))} from {Name} order by {string.Join(", ", Key)}) to stdout";

    public string CopyIn => $"copy {Name} ({string.Join(", ", Columns)}) from stdin";

    private string Value(string column) => OfOneServer.Contains($"{Name}.{column}") ? "0" : column;
}

/// <summary>What a backup holds: every table and sequence of the schemas <c>portal</c> and <c>account</c>.</summary>
internal static class BackupTables
{
    /// <summary>All tables but the lists of migrations, each after the tables that it refers to.</summary>
    public static async Task<List<TableShape>> ReadAsync(NpgsqlConnection database, CancellationToken stop)
    {
        // Order by text is by bytes: servers differ in their languages. What a generated column holds follows from the others.
        const string Question = """
            select format('%I.%I', n.nspname, c.relname),
                   array(select quote_ident(a.attname) from pg_attribute a
                         where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped and a.attgenerated = '' order by a.attnum),
                   array(select quote_ident(a.attname) || case when a.attcollation = 0 then '' else ' collate "C"' end
                         from pg_index i cross join unnest(i.indkey) with ordinality as k(attnum, n)
                         join pg_attribute a on a.attrelid = i.indrelid and a.attnum = k.attnum
                         where i.indrelid = c.oid and i.indisprimary order by k.n),
                   array(select distinct format('%I.%I', fn.nspname, f.relname)
                         from pg_constraint r join pg_class f on f.oid = r.confrelid join pg_namespace fn on fn.oid = f.relnamespace
                         where r.conrelid = c.oid and r.contype = 'f' and f.oid <> c.oid)
            from pg_class c join pg_namespace n on n.oid = c.relnamespace
            where n.nspname in ('portal', 'account') and c.relkind = 'r' and c.relname <> 'migrations'
            order by 1
            """;
        return InOrder(await ListAsync(database, Question, r => new TableShape(
            r.GetString(0), r.GetFieldValue<string[]>(1), r.GetFieldValue<string[]>(2), r.GetFieldValue<string[]>(3)), stop));
    }

    /// <summary>The migrations that the database has, as <c>schema migration</c>; empty where it has none.</summary>
    public static async Task<List<string>> MigrationsAsync(NpgsqlConnection database, CancellationToken stop)
    {
        const string Question = """
            select 'portal ' || migration_id from portal.migrations union all select 'account ' || migration_id from account.migrations order by 1
            """;
        try
        {
            return await ListAsync(database, Question, r => r.GetString(0), stop);
        }
        catch (PostgresException missing) when (missing.SqlState is PostgresErrorCodes.UndefinedTable or PostgresErrorCodes.InvalidSchemaName)
        {
            throw new StartupFailure("The database is empty of any schema: run 'TeamCircle.Cli migrate' first.", missing);
        }
    }

    /// <summary>False where the database holds no schema of the portal yet. Needs no right but to sign in.</summary>
    public static async Task<bool> HasSchemaAsync(string connection, CancellationToken stop)
    {
        await using var database = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connection) { Pooling = false }.ConnectionString);
        await database.OpenAsync(stop);
        const string Question = "select exists (select from pg_class c join pg_namespace n on n.oid = c.relnamespace where n.nspname = 'portal' and c.relname = 'migrations')";
        return (await ListAsync(database, Question, r => r.GetBoolean(0), stop))[0];
    }

    /// <summary>The number that each sequence gives next.</summary>
    public static async Task<Dictionary<string, long>> SequencesAsync(NpgsqlConnection database, CancellationToken stop)
    {
        // Only a sequence itself knows whether it has given its last value yet.
        const string Question = """
            select format('select %L, case when is_called then last_value + %s else last_value end from %I.%I',
                          format('%I.%I', schemaname, sequencename), increment_by, schemaname, sequencename)
            from pg_sequences where schemaname in ('portal', 'account') order by 1
            """;
        var each = string.Join(" union all ", await ListAsync(database, Question, r => r.GetString(0), stop));
        return (await ListAsync(database, each, r => (Name: r.GetString(0), Next: r.GetInt64(1)), stop)).ToDictionary(s => s.Name, s => s.Next);
    }

    private static async Task<List<T>> ListAsync<T>(NpgsqlConnection database, string question, Func<NpgsqlDataReader, T> read, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(question, database);
        await using var reader = await command.ExecuteReaderAsync(stop);
        var rows = new List<T>();
        while (await reader.ReadAsync(stop))
            rows.Add(read(reader));
        return rows;
    }

    private static List<TableShape> InOrder(List<TableShape> tables)
    {
        var ordered = new List<TableShape>();
        var left = new List<TableShape>(tables);
        while (left.Count > 0)
        {
            var next = left.Find(t => !t.RefersTo.Any(name => left.Exists(other => other.Name == name)))
                ?? throw new InvalidOperationException($"These tables refer to each other in a circle: {string.Join(", ", left.Select(t => t.Name))}.");
            left.Remove(next);
            ordered.Add(next);
        }
        return ordered;
    }
}
