using System.Globalization;
using System.Runtime.CompilerServices;
using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads the rows of a query by COPY in binary form, one after the other and without an object for each.</summary>
/// <remarks>Synchronous: run it on a worker thread. The query's columns are read in their order.</remarks>
public sealed class CopyRows
{
    /// <summary>Stands for null where a day or number is read as a plain int.</summary>
    public const int None = Core.Time.Day.None;

    private readonly NpgsqlBinaryExporter _rows;

    private CopyRows(NpgsqlBinaryExporter rows) => _rows = rows;

    /// <summary>Calls <paramref name="row"/> for each row of the query.</summary>
    /// <param name="query">SQL without parameters; numbers only may be built into it.</param>
    public static void Read(NpgsqlConnection connection, string query, Action<CopyRows> row)
    {
        using var rows = connection.BeginBinaryExport($"copy ({query}) to stdout (format binary)");
        var reader = new CopyRows(rows);
        while (rows.StartRow() >= 0)
            row(reader);
    }

    /// <summary>SQL for a date column as a day number; <see cref="None"/> where it is null.</summary>
    public static string Day(string column) => $"coalesce({column} - date '0001-01-01', -1)";

    /// <summary>SQL for a code as the number of its value in <typeparamref name="T"/>, so that no text is made for each row; <see cref="None"/>
    /// where it is null.</summary>
    public static string Code<T>(string column) where T : struct, Enum =>
        $"case {column} {string.Concat(Enum.GetValues<T>().Select(v => $"when '{v}' then {Convert.ToInt32(v, CultureInfo.InvariantCulture)} "))}else {None} end";

    public int Int() => _rows.Read<int>();

    public bool Flag() => _rows.Read<bool>();

    public string Text() => _rows.Read<string>();

    /// <exception cref="InvalidOperationException">There is none, or one that is not known.</exception>
    public T Code<T>() where T : struct, Enum =>
        CodeOrNull<T>() ?? throw new InvalidOperationException($"A row holds no {typeof(T).Name}, or one that is not known.");

    /// <summary>A code that may be missing.</summary>
    public T? CodeOrNull<T>() where T : struct, Enum
    {
        var number = Int();
        return number == None ? null : Unsafe.As<int, T>(ref number); // these enumerations are all of int
    }
}
