using System.Data;
using System.Globalization;
using System.IO.Compression;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>
/// Writes every row of the portal and of its accounts, as they stand at one moment, into one file that any PostgreSQL
/// from version 15 on can take back. Saves go on meanwhile.
/// </summary>
/// <remarks>The file is the records themselves, with password hashes and cookie keys: only the account that took it may read it.</remarks>
public sealed class TakeBackup(TimeProvider clock)
{
    /// <param name="ownerConnection">Signs in as a role that may act as the owner.</param>
    /// <param name="file">Must not exist; it appears under this name only when it is whole.</param>
    /// <param name="say">Told each table as it is done.</param>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public async Task<BackupManifest> RunAsync(string ownerConnection, string file, Action<string> say, CancellationToken stop = default)
    {
        if (File.Exists(file))
            throw new StartupFailure($"{file} exists already: choose another name, or move it away.");
        var unfinished = file + ".unfinished";
        try
        {
            await using var database = await OwnerDatabase.OpenAsOwnerAsync(ownerConnection, stop);
            var manifest = await WriteAsync(database, unfinished, say, stop);
            File.Move(unfinished, file);
            return manifest;
        }
        catch (Exception cause) when (cause is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure($"{file} can't be written: check that its folder exists, that you may write to it, and that the disk has room.", cause);
        }
        finally
        {
            Remove(unfinished);
        }
    }

    private async Task<BackupManifest> WriteAsync(NpgsqlConnection database, string file, Action<string> say, CancellationToken stop)
    {
        await using var transaction = await database.BeginTransactionAsync(IsolationLevel.RepeatableRead, stop);
        var tables = await BackupTables.ReadAsync(database, stop); // its first statement takes the moment
        var takenAt = clock.GetUtcNow();
        await using var zip = await ZipArchive.CreateAsync(Create(file), ZipArchiveMode.Create, leaveOpen: false, null, stop);
        var written = new List<BackupTable>();
        foreach (var table in tables)
        {
            await using (var entry = await zip.CreateEntry($"tables/{table.Name}.copy", CompressionLevel.Fastest).OpenAsync(stop))
                written.Add(await CopiedRows.OutAsync(database, table, entry, stop));
            say(string.Create(CultureInfo.InvariantCulture, $"{table.Name}: {written[^1].Rows:N0} rows"));
        }
        var manifest = new BackupManifest(
            BackupManifest.Current, Instant.FromDateTimeOffset(takenAt), database.PostgreSqlVersion.Major * 10000 + database.PostgreSqlVersion.Minor,
            await BackupTables.MigrationsAsync(database, stop), written, await BackupTables.SequencesAsync(database, stop));
        await manifest.WriteAsync(zip, stop);
        return manifest;
    }

    private static FileStream Create(string file)
    {
        var only = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write, BufferSize = 128 * 1024 };
        if (!OperatingSystem.IsWindows())
            only.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return new FileStream(file, only);
    }

    private static void Remove(string unfinished)
    {
        if (File.Exists(unfinished))
            File.Delete(unfinished);
    }
}
