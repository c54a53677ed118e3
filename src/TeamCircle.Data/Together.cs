using System.Data;
using System.Reflection;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace TeamCircle.Data;

/// <summary>Joins the queries of several reads that do not wait for each other into one statement.</summary>
/// <remarks>Each read asks by <see cref="ListAsync"/> and waits; <see cref="RunAsync"/> sends what all have asked for, and then what they ask for next, until
/// nobody waits any more. A read that is begun this way may wait for nothing else: its rows would be asked for while another statement runs.
/// The database answers with a list of JSON rows for each query (<see cref="RowJson"/>): for few rows.</remarks>
public sealed partial class Together(PortalDb db)
{
    private List<Asked> _asked = [];

    /// <summary>One read by itself.</summary>
    public static async Task<T> AloneAsync<T>(PortalDb db, Func<Together, Task<T>> read, CancellationToken stop)
    {
        var all = new Together(db);
        var answer = read(all);
        await all.RunAsync(stop, answer);
        return await answer;
    }

    /// <summary>The rows of a query, in its order and not tracked; there once <see cref="RunAsync"/> has sent it.</summary>
    /// <typeparam name="T">A table's row, or what is made of columns alone by its only constructor, an anonymous type too.</typeparam>
    public Task<List<T>> ListAsync<T>(IQueryable<T> query) where T : class
    {
        var asked = new Asked<T>((NpgsqlCommand)query.CreateDbCommand(), isRow: db.Model.FindEntityType(typeof(T)) is not null);
        _asked.Add(asked);
        return asked.Answer;
    }

    /// <param name="reads">Those that ask: all are through afterwards.</param>
    /// <exception cref="PostgresException">A query could not be answered; then whoever asked gets no answer.</exception>
    /// <exception cref="InvalidOperationException">One of the reads waits for something else.</exception>
    public async Task RunAsync(CancellationToken stop, params Task[] reads)
    {
        while (_asked is { Count: > 0 } asked)
        {
            _asked = [];
            var parameters = new List<NpgsqlParameter>();
            var sql = $"select json_build_array({string.Join(",\n", asked.Select((a, part) => a.Join(parameters, part)))})::text as \"Value\"";
            using var answer = JsonDocument.Parse(await db.Database.SqlQueryRaw<string>(PlainSql.Of(sql), [.. parameters]).SingleAsync(stop));
            for (var part = 0; part < asked.Count; part++)
                asked[part].Take(answer.RootElement[part]); // whoever waits for it goes on from here, up to what they ask for next
        }
        if (!Array.TrueForAll(reads, r => r.IsCompleted))
            throw new InvalidOperationException("A read that was begun together with others waits for something else.");
    }

    [GeneratedRegex(@"@(\w+)")]
    private static partial Regex ParameterNames();

    private abstract class Asked(NpgsqlCommand query, string columns)
    {
        /// <summary>SQL for the list of rows; its parameters go to the others under names of their own.</summary>
        public string Join(List<NpgsqlParameter> parameters, int part)
        {
            var names = new HashSet<string>();
            foreach (NpgsqlParameter parameter in query.Parameters)
            {
                names.Add(parameter.ParameterName.TrimStart('@'));
                var own = parameter.Clone();
                own.ParameterName = $"of{part}_{parameter.ParameterName.TrimStart('@')}";
                parameters.Add(own);
            }
            var sql = ParameterNames().Replace(query.CommandText, m => names.Contains(m.Groups[1].Value) ? $"@of{part}_{m.Groups[1].Value}" : m.Value);
            return $"(select coalesce(json_agg(row_to_json(q)), '[]') from ({sql}) q{columns})";
        }

        public abstract void Take(JsonElement rows);
    }

    private sealed class Asked<T>(NpgsqlCommand query, bool isRow) : Asked(query, isRow ? "" : Columns) where T : class
    {
        private static readonly ConstructorInfo? Made = typeof(T).GetConstructors() is [var only] ? only : null;
        private static readonly ParameterInfo[] Parts = Made?.GetParameters() ?? [];
        private readonly TaskCompletionSource<List<T>> _answer = new();

        public Task<List<T>> Answer => _answer.Task;

        // Columns by their place, since a query gives names of its own to few of them: the place is that of the constructor's part.
        private static string Columns => $" ({string.Join(", ", Parts.Select((_, i) => $"c{i}"))})";

        public override void Take(JsonElement rows) => _answer.SetResult([.. rows.EnumerateArray().Select(Row)]);

        private T Row(JsonElement row)
        {
            if (isRow)
                return RowJson.Read<T>(row);
            if (row.GetPropertyCount() != Parts.Length)
                throw new InvalidOperationException($"A query for {typeof(T).Name} has {row.GetPropertyCount()} columns, and not {Parts.Length}.");
            var (values, next) = (new object?[Parts.Length], 0);
            foreach (var column in row.EnumerateObject())
                values[next] = Value(column.Value, Parts[next++].ParameterType);
            return (T)Made!.Invoke(values);
        }

        // A document that is kept as JSON is read as text, as the query itself would.
        private static object? Value(JsonElement value, Type kind) => value.ValueKind switch
        {
            JsonValueKind.Null => null,
            JsonValueKind.String when kind == typeof(string) => value.GetString(),
            JsonValueKind.Object or JsonValueKind.Array when kind == typeof(string) => value.GetRawText(),
            JsonValueKind.Number when kind == typeof(int) => value.GetInt32(),
            _ => RowJson.Read(value, kind),
        };
    }
}
