using System.Runtime.CompilerServices;
using Npgsql;
using TeamCircle.Core.History;

namespace TeamCircle.Data.History;

/// <summary>Rows of the trail, read one after the other as they are sealed and verified.</summary>
internal static class ChangeRows
{
    /// <summary>A condition on a change <c>c</c> of agency <c>$1</c>: no block holds it.</summary>
    public const string InNoBlock = "not exists (select from (select unnest(b.change_ids) as id from portal.blocks b where b.agency_id = $1) s where s.id = c.id)";

    /// <param name="condition">On <c>c</c>; <c>$1</c> is the agency, the values begin at <c>$2</c>.</param>
    /// <returns>In order of their ids, each with the number of its transaction and the destruction that emptied it, if one did.</returns>
    public static async IAsyncEnumerable<(Change Change, long Tx, int? Destruction)> ReadAsync(
        NpgsqlConnection database, int agency, string condition, object[] values, [EnumeratorCancellation] CancellationToken stop)
    {
        // The JSON is taken as the database writes it: that text is the same on every version and server.
        var question = $"""
            select c.id, c.at, c.person_id, c.ground, c.operation_id, c.learner_id, c.table_name, c.row_key, c.act, c.before::text, c.after::text, c.tx, c.destruction_id
            from portal.changes c where c.agency_id = $1 and {condition} order by c.id
            """;
        await using var command = new NpgsqlCommand(question, database) { CommandTimeout = 0, Parameters = { new() { Value = agency } } };
        foreach (var value in values)
            command.Parameters.Add(new() { Value = value });
        await using var rows = await command.ExecuteReaderAsync(stop);
        while (await rows.ReadAsync(stop))
            yield return (Of(rows, agency), rows.GetInt64(11), rows.IsDBNull(12) ? null : rows.GetInt32(12));
    }

    private static Change Of(NpgsqlDataReader row, int agency) => new(
        agency, row.GetInt64(0), row.GetFieldValue<Instant>(1), row.GetInt32(2), row.GetString(3),
        row.IsDBNull(4) ? null : row.GetGuid(4), row.IsDBNull(5) ? null : row.GetInt32(5),
        row.GetString(6), row.GetString(7), row.GetString(8), Text(row, 9), Text(row, 10));

    private static string? Text(NpgsqlDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);
}
