using System.Buffers;
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Npgsql;
using NpgsqlTypes;

namespace TeamCircle.Data.Seed;

/// <summary>Copies rows into tables in binary form, and takes one hash over the values in the order in which they were written.</summary>
/// <remarks>Numbers that one database gives and another does not (the agency, its terminal) go in without the hash.</remarks>
internal sealed class HashedRows(NpgsqlConnection connection) : IDisposable
{
    private const int Chunk = 64 * 1024;

    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly ArrayBufferWriter<byte> _values = new(Chunk);
    private NpgsqlBinaryImporter? _table;

    /// <summary>Rows written so far.</summary>
    public long Count { get; private set; }

    /// <summary>Copies <paramref name="items"/> into a table, a row each.</summary>
    public void Copy<T>(string table, string columns, IEnumerable<T> items, Action<T> write)
    {
        using var importer = connection.BeginBinaryImport($"copy portal.{table} ({columns}) from stdin (format binary)");
        _table = importer;
        foreach (var item in items)
        {
            importer.StartRow();
            write(item);
            Count++;
            if (_values.WrittenCount > Chunk / 2)
                Hash();
        }
        importer.Complete();
    }

    /// <summary>Ends the hash: 64 hexadecimal digits.</summary>
    public string Finish()
    {
        Hash();
        return Convert.ToHexStringLower(_hash.GetHashAndReset());
    }

    public void Unhashed(int value) => _table!.Write(value);

    public void Write(int value)
    {
        BinaryPrimitives.WriteInt32LittleEndian(_values.GetSpan(4), value);
        _values.Advance(4);
        _table!.Write(value);
    }

    public void Write(int? value)
    {
        if (value is { } known)
            Write(known);
        else
            WriteNull();
    }

    public void Write(bool value)
    {
        Mark(value ? (byte)1 : (byte)0);
        _table!.Write(value);
    }

    public void Write(bool? value)
    {
        if (value is { } known)
            Write(known);
        else
            WriteNull();
    }

    public void Write(Guid value)
    {
        value.TryWriteBytes(_values.GetSpan(16));
        _values.Advance(16);
        _table!.Write(value);
    }

    public void Write(Guid? value)
    {
        if (value is { } known)
            Write(known);
        else
            WriteNull();
    }

    public void Write(LocalDate value)
    {
        Note(Core.Time.Day.Of(value));
        _table!.Write(value.ToDateOnly());
    }

    public void Write(LocalDate? value)
    {
        if (value is { } known)
            Write(known);
        else
            WriteNull();
    }

    public void Write(LocalTime value)
    {
        Note(value.NanosecondOfDay);
        _table!.Write(value.ToTimeOnly());
    }

    public void Write(Instant value)
    {
        Note(value.ToUnixTimeTicks());
        _table!.Write(value.ToDateTimeUtc(), NpgsqlDbType.TimestampTz);
    }

    /// <summary>From the first moment up to, and without, the second.</summary>
    public void Write(Instant from, Instant to)
    {
        Note(from.ToUnixTimeTicks());
        Note(to.ToUnixTimeTicks());
        _table!.Write(new NpgsqlRange<DateTime>(from.ToDateTimeUtc(), true, to.ToDateTimeUtc(), false), NpgsqlDbType.TimestampTzRange);
    }

    /// <summary>A text, or the word of a code; null for none.</summary>
    public void Write(string? value, NpgsqlDbType type = NpgsqlDbType.Text)
    {
        if (value is null)
        {
            WriteNull();
            return;
        }
        _values.Advance(Encoding.UTF8.GetBytes(value, _values.GetSpan(Encoding.UTF8.GetMaxByteCount(value.Length))));
        Mark(0);
        _table!.Write(value, type);
    }

    /// <summary>A whole number in a column of numbers of any precision.</summary>
    public void WriteNumeric(int value)
    {
        Note(value);
        _table!.Write((decimal)value);
    }

    public void Write(int[] values)
    {
        foreach (var value in values)
            Note(value);
        _table!.Write(values);
    }

    public void Dispose() => _hash.Dispose();

    private void WriteNull()
    {
        Mark(byte.MaxValue);
        _table!.WriteNull();
    }

    private void Mark(byte value)
    {
        _values.GetSpan(1)[0] = value;
        _values.Advance(1);
    }

    private void Note(long value)
    {
        BinaryPrimitives.WriteInt64LittleEndian(_values.GetSpan(8), value);
        _values.Advance(8);
    }

    private void Hash()
    {
        _hash.AppendData(_values.WrittenSpan);
        _values.ResetWrittenCount();
    }
}
