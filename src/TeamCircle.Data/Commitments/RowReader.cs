using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads rows: each query at once (<see cref="OneByOne"/>), or all together at the end (<see cref="JoinedRows"/>).</summary>
public interface IRowReader
{
    /// <summary>Calls <paramref name="row"/> for each row of the query, after all that was asked before.</summary>
    /// <param name="query">SQL without parameters but those of a bound <see cref="RowFilter"/>; numbers only may be built into it.</param>
    void Read(string query, Action<CopyRows> row);

    /// <summary>Runs a step that needs all rows that were asked for before it.</summary>
    void Then(Action step);
}

/// <summary>Sends each query as it is asked, by COPY: for many rows, which are then seen as they come and never held.</summary>
public sealed class OneByOne(NpgsqlConnection connection) : IRowReader
{
    public void Read(string query, Action<CopyRows> row) => CopyRows.Read(connection, query, row);

    public void Then(Action step) => step();
}

/// <summary>Sends all queries by one statement: for few rows, where planning them and the way to the database and back are what takes the time.</summary>
/// <remarks>Nothing is read before <see cref="RunAsync"/>. The database holds all rows before it sends the first. Each query answers with one list of its
/// rows, each as <c>record_send</c> writes it, so that the rows of a query come in its own order whatever plan the database chooses: an ordered query within <c>from</c>
/// is never cut into parts.</remarks>
/// <param name="bound">Whose values the queries may name.</param>
public sealed class JoinedRows(PortalDb db, RowFilter bound) : IRowReader
{
    private readonly List<(string? Query, Action<CopyRows> Take)> _steps = [];

    private sealed record Answer(int Nth, byte[][]? Found);

    public void Read(string query, Action<CopyRows> row) => _steps.Add((query, row));

    public void Then(Action step) => _steps.Add((null, _ => step()));

    /// <summary>Asks for all rows and runs all steps, in the order in which they were asked for.</summary>
    public async Task RunAsync(CancellationToken stop = default)
    {
        var queries = _steps.Select(s => s.Query).OfType<string>().Select((query, nth) => $"select {nth} as nth, (select array_agg(record_send(q)) from ({query}) q) as found");
        var sql = string.Join("\nunion all ", queries);
        var answers = await db.Database.SqlQueryRaw<Answer>(PlainSql.Of(sql), bound.Parameters).ToDictionaryAsync(a => a.Nth, a => a.Found ?? [], stop);
        var next = 0;
        foreach (var (query, take) in _steps)
        {
            if (query is null)
                take(CopyRows.Nothing);
            else
                CopyRows.Read(answers[next++], take);
        }
        _steps.Clear();
    }
}
