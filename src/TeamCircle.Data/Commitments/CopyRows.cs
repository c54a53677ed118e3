using System.Buffers.Binary;
using System.Text;
using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads the rows of a query in binary form, by COPY or as they are here already, one after the other and without an object for each.</summary>
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
    private byte[] _bytes = [];
    private int _at, _end;
    private bool _isTyped;

    private CopyRows(Stream rows) => _rows = rows;

    /// <summary>Calls <paramref name="row"/> for each row of the query.</summary>
    /// <param name="query">SQL without parameters; numbers only may be built into it.</param>
    public static void Read(NpgsqlConnection connection, string query, Action<CopyRows> row)
    {
        using var rows = connection.BeginRawBinaryCopy($"copy ({query}) to stdout (format binary)");
        var reader = new CopyRows(rows) { _bytes = new byte[32 * 1024] };
        reader.Take(SignatureAndFlags);
        reader.Take(reader.Number());
        while (BinaryPrimitives.ReadInt16BigEndian(reader.Take(sizeof(short))) >= 0)
            row(reader);
        while (rows.Read(reader._bytes) > 0) { } // what the server says after the last row
    }

    /// <summary>Holds no row.</summary>
    internal static CopyRows Nothing { get; } = new(Stream.Null);

    /// <summary>Calls <paramref name="row"/> for each of some rows that are here already.</summary>
    /// <param name="rows">Each as <c>record_send</c> writes it: the number of its columns, then each with the number of its type before it.</param>
    internal static void Read(IEnumerable<byte[]> rows, Action<CopyRows> row)
    {
        var reader = new CopyRows(Stream.Null) { _isTyped = true };
        foreach (var bytes in rows)
        {
            (reader._bytes, reader._at, reader._end) = (bytes, sizeof(int), bytes.Length);
            row(reader);
        }
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
