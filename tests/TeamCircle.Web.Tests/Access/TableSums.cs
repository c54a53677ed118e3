using Npgsql;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Access;

/// <summary>A sum over every row of every table, to tell that nothing was changed.</summary>
internal static class TableSums
{
    // What looking itself leaves: the record of access, the last request of a sign-in, keys made at the first need.
    private static readonly string[] Exempt = ["portal.accesses", "account.sign_ins", "account.data_protection_keys"];

    public static async Task<IReadOnlyList<string>> ReadAsync(TestDatabase database)
    {
        await using var connection = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await connection.OpenAsync();
        var tables = new List<string>();
        await using (var list = new NpgsqlCommand("select schemaname || '.' || tablename from pg_tables where schemaname in ('portal', 'account') order by 1", connection))
        await using (var reader = await list.ExecuteReaderAsync())
        {
            while (await reader.ReadAsync())
                tables.Add(reader.GetString(0));
        }
        var sums = new List<string>();
        foreach (var table in tables.Except(Exempt))
        {
            await using var sum = new NpgsqlCommand($"select count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' order by t::text)), '') from {table} t", connection);
            sums.Add($"{table} {await sum.ExecuteScalarAsync()}");
        }
        return sums;
    }
}
