using System.Globalization;
using System.IO.Compression;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>
/// Loads a backup into an empty database, on any server from version 15 on: all of it, or nothing. One without a schema is first brought to the backup's,
/// which may be an earlier release's.
/// </summary>
/// <remarks>
/// Everything happens in one transaction that holds every table for itself. The walls and the trail are down in it and up
/// again before it ends; foreign keys, uniqueness and exclusions are checked as always.
/// </remarks>
public static class RestoreBackup
{
    /// <param name="ownerConnection">Signs in as a role that may act as the owner.</param>
    /// <param name="say">Told each table as it is done.</param>
    /// <exception cref="StartupFailure">The message says what to do; the database is as it was.</exception>
    public static async Task<BackupManifest> RunAsync(string ownerConnection, string file, Action<string> say, CancellationToken stop = default)
    {
        await using var zip = await OpenAsync(file, stop);
        var manifest = await BackupManifest.ReadAsync(zip, file, stop);
        await CheckAsync(zip, manifest, file, stop);
        await MakeSchemaAsync(ownerConnection, manifest, stop);
        await using var database = await OwnerDatabase.OpenAsOwnerAsync(ownerConnection, stop);
        await RequireSameSchemaAsync(database, manifest, stop);
        try
        {
            await using var transaction = await database.BeginTransactionAsync(stop);
            await LoadAsync(database, zip, manifest, say, stop);
            await transaction.CommitAsync(stop);
        }
        catch (PostgresException refused)
        {
            throw new StartupFailure($"The server refused what {file} holds ({refused.SqlState}, {refused.TableName ?? "no table"}); nothing was restored: take an earlier backup, or report this.", refused);
        }
        await ExecuteAsync(database, "analyze", stop);
        return manifest;
    }

    /// <summary>Reads a backup whole and compares each table with what was written of it; touches no database.</summary>
    /// <exception cref="StartupFailure">It is no backup, or is damaged.</exception>
    public static async Task<BackupManifest> CheckAsync(string file, CancellationToken stop = default)
    {
        await using var zip = await OpenAsync(file, stop);
        var manifest = await BackupManifest.ReadAsync(zip, file, stop);
        await CheckAsync(zip, manifest, file, stop);
        return manifest;
    }

    private static async Task<ZipArchive> OpenAsync(string file, CancellationToken stop)
    {
        try
        {
            return await ZipArchive.CreateAsync(File.OpenRead(file), ZipArchiveMode.Read, leaveOpen: false, null, stop);
        }
        catch (InvalidDataException cause)
        {
            throw BackupManifest.NotABackup(file, cause);
        }
        catch (Exception cause) when (cause is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure($"{file} can't be read: check its name and that you may read it.", cause);
        }
    }

    /// <summary>Reads the whole file once before the database is touched.</summary>
    private static async Task CheckAsync(ZipArchive zip, BackupManifest manifest, string file, CancellationToken stop)
    {
        foreach (var table in manifest.Tables)
        {
            try
            {
                await using var rows = await Entry(zip, table).OpenAsync(stop);
                var found = await CopiedRows.PassAsync(rows, Stream.Null, table.Name, table.Columns, stop);
                if (!found.IsSameAs(table))
                    throw new InvalidDataException(table.Name);
            }
            catch (InvalidDataException cause)
            {
                throw new StartupFailure($"{file} is damaged ({table.Name}): take another copy of it, or an earlier backup. Nothing was restored.", cause);
            }
        }
    }

    /// <summary>Where the database has no schema at all, makes the one that the rows come from.</summary>
    private static async Task MakeSchemaAsync(string ownerConnection, BackupManifest manifest, CancellationToken stop)
    {
        if (await BackupTables.HasSchemaAsync(ownerConnection, stop))
            return;
        if (manifest.Migrations.Except(Migrate.Known()).LastOrDefault() is { } unknown)
            throw Newer(unknown);
        await Migrate.ToAsync(ownerConnection, manifest.Migrations, stop);
    }

    private static async Task RequireSameSchemaAsync(NpgsqlConnection database, BackupManifest manifest, CancellationToken stop)
    {
        var here = await BackupTables.MigrationsAsync(database, stop);
        if (manifest.Migrations.Except(here).LastOrDefault() is { } lacking)
            throw Newer(lacking);
        if (here.Except(manifest.Migrations).LastOrDefault() is { } more)
            throw new StartupFailure($"The backup was taken by an older portal (it lacks {more}): restore it into a new database without any schema, then run 'TeamCircle.Cli migrate'.");
    }

    private static StartupFailure Newer(string migration) =>
        new($"The backup was taken by a newer portal (it has {migration}): restore it with that portal's 'TeamCircle.Cli restore'.");

    private static async Task LoadAsync(NpgsqlConnection database, ZipArchive zip, BackupManifest manifest, Action<string> say, CancellationToken stop)
    {
        var shapes = await BackupTables.ReadAsync(database, stop);
        var walls = await TableWalls.LowerAsync(database, shapes, stop);
        await RequireEmptyAsync(database, shapes, stop);
        foreach (var shape in shapes)
            await LoadTableAsync(database, zip, shape, manifest.Tables.Single(t => t.Name == shape.Name), say, stop);
        foreach (var name in (await BackupTables.SequencesAsync(database, stop)).Keys)
            await ExecuteAsync(database, string.Create(CultureInfo.InvariantCulture, $"alter sequence {name} restart with {manifest.Sequences[name]}"), stop);
        await walls.RaiseAsync(database, stop);
    }

    // Names of columns come from the database, never from the file: its text must not become SQL.
    private static async Task LoadTableAsync(
        NpgsqlConnection database, ZipArchive zip, TableShape shape, BackupTable table, Action<string> say, CancellationToken stop)
    {
        var inFileOrder = shape with { Columns = [.. table.Columns.Select(saved => shape.Columns.Single(here => here == saved))] };
        await InAsync(database, Entry(zip, table), inFileOrder.CopyIn, stop);
        var loaded = await CopiedRows.OutAsync(database, inFileOrder, Stream.Null, stop);
        if (!loaded.IsSameAs(table))
            throw new StartupFailure($"{table.Name} did not come back as it was saved; nothing was restored: report this, and restore an earlier backup.");
        say(string.Create(CultureInfo.InvariantCulture, $"{table.Name}: {table.Rows:N0} rows"));
    }

    private static async Task InAsync(NpgsqlConnection database, ZipArchiveEntry entry, string copyIn, CancellationToken stop)
    {
        await using var rows = await entry.OpenAsync(stop);
        await using var into = await database.BeginTextImportAsync(copyIn, stop);
        await rows.CopyToAsync(into.BaseStream, stop);
    }

    private static async Task RequireEmptyAsync(NpgsqlConnection database, List<TableShape> tables, CancellationToken stop)
    {
        foreach (var table in tables)
        {
            await using var any = new NpgsqlCommand($"select exists (select from {table.Name})", database);
            if (await any.ExecuteScalarAsync(stop) is true)
                throw new StartupFailure($"The database already holds rows ({table.Name}): restore into an empty one, and nothing is overwritten (a new database, or TEAMCIRCLE_DATA set to a new folder).");
        }
    }

    private static ZipArchiveEntry Entry(ZipArchive zip, BackupTable table) =>
        zip.GetEntry(table.EntryName) ?? throw new InvalidDataException(table.Name);

    private static async Task ExecuteAsync(NpgsqlConnection database, string sql, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(sql, database);
        await command.ExecuteNonQueryAsync(stop);
    }
}
