using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads rows by COPY: each query at once (<see cref="OneByOne"/>), or all together at the end (<see cref="JoinedRows"/>).</summary>
public interface IRowReader
{
    /// <summary>Calls <paramref name="row"/> for each row of the query, after all that was asked before.</summary>
    /// <param name="query">SQL without parameters; numbers only may be built into it.</param>
    void Read(string query, Action<CopyRows> row);

    /// <summary>Runs a step that needs all rows that were asked for before it.</summary>
    void Then(Action step);
}

/// <summary>Sends each query as it is asked: for many rows, which are then seen as they come and never held.</summary>
public sealed class OneByOne(NpgsqlConnection connection) : IRowReader
{
    public void Read(string query, Action<CopyRows> row) => CopyRows.Read(connection, query, row);

    public void Then(Action step) => step();
}

/// <summary>Sends all queries by one statement: for few rows, where the way to the database and back is what takes the time.</summary>
/// <remarks>Nothing is read before <see cref="Run"/>. The database holds all rows before it sends the first.</remarks>
public sealed class JoinedRows(NpgsqlConnection connection) : IRowReader
{
    private readonly List<(string? Query, Action<CopyRows> Take)> _steps = [];

    public void Read(string query, Action<CopyRows> row) => _steps.Add((query, row));

    public void Then(Action step) => _steps.Add((null, _ => step()));

    /// <summary>Asks for all rows and runs all steps, in the order in which they were asked for.</summary>
    /// <remarks>Synchronous: run it on a worker thread.</remarks>
    public void Run()
    {
        CopyRows.ReadJoined(connection, _steps);
        _steps.Clear();
    }
}
