using System.Buffers.Binary;
using System.Text;
using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads the rows of a query by COPY in binary form, one after the other and without an object for each.</summary>
/// <remarks>Synchronous: run it on a worker thread. The query's columns are read in their order, each as the kind that it is, and just as
/// the table holds them: a conversion in the query would be worked out for every row by the one process that is busiest.</remarks>
public sealed class CopyRows
{
    /// <summary>Stands for null where a day or number is read as a plain int.</summary>
    public const int None = Core.Time.Day.None;

    // PostgreSQL counts days from the first of January 2000.
    private static readonly int FirstDay = new DateOnly(2000, 1, 1).DayNumber;
    private const int SignatureAndFlags = 15;

    private readonly Stream _rows;
    private byte[] _bytes = new byte[32 * 1024];
    private int _at, _end;
    private bool _isTyped;

    private CopyRows(Stream rows) => _rows = rows;

    /// <summary>Calls <paramref name="row"/> for each row of the query.</summary>
    /// <param name="query">SQL without parameters; numbers only may be built into it.</param>
    public static void Read(NpgsqlConnection connection, string query, Action<CopyRows> row)
    {
        using var rows = connection.BeginRawBinaryCopy($"copy ({query}) to stdout (format binary)");
        var reader = new CopyRows(rows);
        reader.Take(SignatureAndFlags);
        reader.Take(reader.Number());
        while (BinaryPrimitives.ReadInt16BigEndian(reader.Take(sizeof(short))) >= 0)
            row(reader);
        while (rows.Read(reader._bytes) > 0) { } // what the server says after the last row
    }

    /// <summary>Reads several queries by one COPY: its only row holds for each query the list of its rows, as <c>record_send</c> writes a row.</summary>
    /// <remarks>So the queries come in their order, and the rows of each in its own order, whatever plan the database chooses: an ordered query
    /// within <c>from</c> is never cut into parts.</remarks>
    /// <param name="steps">Queries, each with what takes its rows; what has no query is called once, when all before it is read.</param>
    internal static void ReadJoined(NpgsqlConnection connection, IReadOnlyList<(string? Query, Action<CopyRows> Take)> steps)
    {
        var lists = steps.Where(s => s.Query is not null).Select(s => $"(select array_agg(record_send(q)) from ({s.Query}) q)");
        using var rows = connection.BeginRawBinaryCopy($"copy (select {string.Join(",\n", lists)}) to stdout (format binary)");
        var reader = new CopyRows(rows) { _isTyped = true };
        reader.Take(SignatureAndFlags);
        reader.Take(reader.Number());
        reader.Take(sizeof(short));
        foreach (var (query, take) in steps)
        {
            for (var left = query is null ? 1 : reader.ListLength(); left > 0; left--)
            {
                if (query is not null)
                    reader.Take(2 * sizeof(int)); // bytes and columns of the row
                take(reader);
            }
        }
        while (rows.Read(reader._bytes) > 0) { } // what the server says after the last row
    }

    /// <summary>A number; <see cref="None"/> where it is null.</summary>
    public int Int() => Length() < 0 ? None : BinaryPrimitives.ReadInt32BigEndian(Take(sizeof(int)));

    /// <summary>A date as a day number; <see cref="None"/> where it is null.</summary>
    public int Day() => Length() < 0 ? None : BinaryPrimitives.ReadInt32BigEndian(Take(sizeof(int))) + FirstDay;

    public bool Flag() => Take(Length())[0] != 0;

    public string Text() => Encoding.UTF8.GetString(Take(Length()));

    /// <exception cref="InvalidOperationException">There is none, or one that is not known.</exception>
    public T Code<T>() where T : struct, Enum =>
        CodeOrNull<T>() ?? throw new InvalidOperationException($"A row holds no {typeof(T).Name}.");

    /// <summary>A code that may be missing.</summary>
    /// <exception cref="InvalidOperationException">It is not known.</exception>
    public T? CodeOrNull<T>() where T : struct, Enum => Length() is >= 0 and var length ? Codes<T>.Of(Take(length)) : null;

    private int Length()
    {
        if (_isTyped)
            Take(sizeof(int));
        return Number();
    }

    private int Number() => BinaryPrimitives.ReadInt32BigEndian(Take(sizeof(int)));

    /// <summary>How many rows a list holds; what follows is the first of them.</summary>
    private int ListLength()
    {
        if (Number() < 0)
            return 0; // no row, no list
        Take(3 * sizeof(int)); // dimensions, whether there are nulls, the kind of value
        var count = Number();
        Take(sizeof(int)); // where it begins to count
        return count;
    }

    /// <summary>The next bytes; they hold until the next are taken.</summary>
    private ReadOnlySpan<byte> Take(int count)
    {
        if (_end - _at < count)
            Fill(count);
        _at += count;
        return _bytes.AsSpan(_at - count, count);
    }

    private void Fill(int count)
    {
        var rest = _bytes.AsSpan(_at, _end - _at);
        if (count > _bytes.Length)
            _bytes = new byte[count];
        rest.CopyTo(_bytes);
        (_at, _end) = (0, rest.Length);
        _end += _rows.ReadAtLeast(_bytes.AsSpan(_end), count - _end);
    }

    /// <summary>The words by which the values of a code are kept.</summary>
    private static class Codes<T> where T : struct, Enum
    {
        private static readonly (byte[] Word, T Value)[] All = [.. Enum.GetValues<T>().Select(v => (Encoding.UTF8.GetBytes(v.ToString()), v))];

        public static T Of(ReadOnlySpan<byte> word)
        {
            foreach (var (known, value) in All)
            {
                if (word.SequenceEqual(known))
                    return value;
            }
            throw new InvalidOperationException($"A row holds a {typeof(T).Name} that is not known.");
        }
    }
}
