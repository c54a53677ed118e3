using System.Buffers;
using System.Security.Cryptography;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>The rows of one table on their way: passes COPY text on as it comes, counts and hashes it.</summary>
internal static class CopiedRows
{
    private const int Chunk = 128 * 1024;

    /// <summary>Copies a table out of the database.</summary>
    /// <param name="to">Where the text goes; <see cref="Stream.Null"/> only to count and hash.</param>
    public static async Task<BackupTable> OutAsync(NpgsqlConnection database, TableShape table, Stream to, CancellationToken stop)
    {
        using var rows = await database.BeginTextExportAsync(table.CopyOut, stop);
        return await PassAsync(rows.BaseStream, to, table.Name, table.Columns, stop);
    }

    /// <summary>Passes the text on; a row ends with a line feed, and one inside a value is written as \n.</summary>
    public static async Task<BackupTable> PassAsync(Stream from, Stream to, string name, IReadOnlyList<string> columns, CancellationToken stop)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var chunk = ArrayPool<byte>.Shared.Rent(Chunk);
        try
        {
            long rows = 0;
            for (int length; (length = await from.ReadAsync(chunk.AsMemory(0, Chunk), stop)) > 0;)
            {
                rows += chunk.AsSpan(0, length).Count((byte)'\n');
                hash.AppendData(chunk, 0, length);
                await to.WriteAsync(chunk.AsMemory(0, length), stop);
            }
            return new BackupTable(name, columns, rows, Convert.ToHexStringLower(hash.GetHashAndReset()));
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(chunk);
        }
    }
}
