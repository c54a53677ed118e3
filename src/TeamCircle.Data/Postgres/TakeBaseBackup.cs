using System.Text;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>
/// Copies the files of the private server while it runs and saves go on, with the log of changes that makes them whole: a folder that a portal
/// starts on by <c>TEAMCIRCLE_DATA</c>.
/// </summary>
/// <remarks>
/// As PostgreSQL's manual says under "Making a Base Backup Using the Low Level API" (version 15, 26.3.3; version 18, 25.3.4), which also names what is
/// left out. Servers of your own have pg_basebackup for it.
/// </remarks>
public static class TakeBaseBackup
{
    /// <summary>Their contents belong to one run of the server; the folders themselves must be there.</summary>
    private static readonly HashSet<string> Emptied = ["pg_wal", "pg_replslot", "pg_dynshmem", "pg_notify", "pg_serial", "pg_snapshots", "pg_stat_tmp", "pg_subtrans"];

    /// <summary>What was copied.</summary>
    /// <param name="FirstLog">The first file of the log of changes that is in it.</param>
    /// <param name="LastLog">The last one; the copy shows the moment at which it ends.</param>
    public sealed record Taken(int Files, long Bytes, string FirstLog, string LastLog);

    /// <param name="named">The first of the connection strings that are set; none may be, for its server's files are not ours.</param>
    /// <param name="note">Told what a person may want to know, a line at a time.</param>
    /// <inheritdoc cref="RunAsync(PostgresServer, string, CancellationToken)"/>
    public static async Task<Taken> OfPrivateAsync(string contentRoot, string? named, string folder, Action<string> note, CancellationToken stop = default)
    {
        if (!string.IsNullOrWhiteSpace(named))
            throw new StartupFailure("A named server's files are copied by its own programs: use pg_basebackup (docs/operations.md), or 'TeamCircle.Cli backup'.");
        await using var server = await PostgresLauncher.StartAsync(PortalDatabase.PrivateOptions(contentRoot, note), stop);
        return await RunAsync(server, folder, stop);
    }

    /// <param name="folder">Must not exist; it appears under this name only when it is whole.</param>
    /// <exception cref="StartupFailure">The message says what to do.</exception>
    public static async Task<Taken> RunAsync(PostgresServer server, string folder, CancellationToken stop = default)
    {
        if (Path.Exists(folder))
            throw new StartupFailure($"{folder} exists already: choose another name, or move it away.");
        var unfinished = folder + ".unfinished";
        try
        {
            await using var database = new NpgsqlConnection(server.ConnectionString("postgres") + ";Pooling=false;Command Timeout=0");
            await database.OpenAsync(stop);
            var taken = await CopyAsync(database, server.Folder, unfinished, stop);
            await ServerAccount.ForThisProcess().OwnAllAsync(Path.Combine(unfinished, "postgres"), stop);
            Directory.Move(unfinished, folder);
            return taken;
        }
        catch (Exception cause) when (cause is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure($"{folder} can't be written: check that the folder above exists, that you may write to it, and that the disk has room.", cause);
        }
        finally
        {
            if (Directory.Exists(unfinished))
                Directory.Delete(unfinished, recursive: true);
        }
    }

    /// <summary>All in one session: its end, however it comes, ends the backup and lets the server throw old log files away again.</summary>
    private static async Task<Taken> CopyAsync(NpgsqlConnection database, string from, string unfinished, CancellationToken stop)
    {
        var (cluster, copy) = (Path.Combine(from, "cluster"), Path.Combine(unfinished, "postgres", "cluster"));
        await AskAsync(database, $"select slot_name::text from pg_create_physical_replication_slot('teamcircle_{Environment.ProcessId}', true, true)", stop);
        var first = (await AskAsync(database, "select pg_walfile_name(pg_backup_start('teamcircle', true))", stop))[0];
        var sum = await CopyFolderAsync(cluster, copy, isRoot: true, stop);
        var end = await AskAsync(database, "select pg_walfile_name(lsn), labelfile, spcmapfile from pg_backup_stop(false)", stop);
        if (end[2].Trim().Length > 0)
            throw new StartupFailure("The private server has tablespaces in other folders: copy it with pg_basebackup of the same version.");
        foreach (var log in Directory.GetFiles(Path.Combine(cluster, "pg_wal")).Where(file => IsNeeded(Path.GetFileName(file), first, end[0])))
            sum += await CopyFileAsync(log, Path.Combine(copy, "pg_wal", Path.GetFileName(log)), stop);
        await WriteAsync(Path.Combine(copy, "backup_label"), Encoding.UTF8.GetBytes(end[1]), stop); // to the letter, or the server does not start on it
        if (File.Exists(Path.Combine(from, "password")))
            sum += await CopyFileAsync(Path.Combine(from, "password"), Path.Combine(unfinished, "postgres", "password"), stop);
        return new Taken(sum.Files, sum.Bytes, first, end[0]);
    }

    /// <summary>Whether a file of the log lies between the two, ends included. Their names sort as they were written.</summary>
    private static bool IsNeeded(string name, string first, string last) =>
        name.Length == first.Length && string.CompareOrdinal(name, first) >= 0 && string.CompareOrdinal(name, last) <= 0;

    private static bool IsLeftOut(string name, bool inRoot) =>
        name.StartsWith("pgsql_tmp", StringComparison.Ordinal) || name == "pg_internal.init" || (inRoot && name is "postmaster.pid" or "postmaster.opts" or "backup_label");

    private readonly record struct Sum(int Files, long Bytes)
    {
        public static Sum operator +(Sum a, Sum b) => new(a.Files + b.Files, a.Bytes + b.Bytes);
    }

    private static async Task<Sum> CopyFolderAsync(string from, string to, bool isRoot, CancellationToken stop)
    {
        MakeFolder(to);
        var sum = default(Sum);
        foreach (var file in Directory.GetFiles(from).Where(file => !IsLeftOut(Path.GetFileName(file), isRoot)))
            sum += await CopyFileAsync(file, Path.Combine(to, Path.GetFileName(file)), stop);
        foreach (var folder in Directory.GetDirectories(from).Where(folder => !IsLeftOut(Path.GetFileName(folder), isRoot)))
        {
            var copy = Path.Combine(to, Path.GetFileName(folder));
            if (isRoot && Emptied.Contains(Path.GetFileName(folder)))
                MakeFolder(copy);
            else
                sum += await CopyFolderAsync(folder, copy, isRoot: false, stop);
        }
        return sum;
    }

    /// <summary>A file that is written meanwhile may be copied torn: the log of changes holds its whole pages.</summary>
    private static async Task<Sum> CopyFileAsync(string from, string to, CancellationToken stop)
    {
        try
        {
            await using var source = new FileStream(from, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            await using var copy = Create(to);
            await source.CopyToAsync(copy, stop);
            copy.Flush(flushToDisk: true);
            return new Sum(1, copy.Length);
        }
        catch (FileNotFoundException)
        {
            return default; // its table was dropped, or shortened, since the folder was listed
        }
    }

    private static async Task WriteAsync(string file, byte[] content, CancellationToken stop)
    {
        await using var to = Create(file);
        await to.WriteAsync(content, stop);
        to.Flush(flushToDisk: true);
    }

    private static FileStream Create(string file)
    {
        var only = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            only.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return new FileStream(file, only);
    }

    private static void MakeFolder(string path)
    {
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(path);
        else
            Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    /// <summary>The one row of an answer, as texts.</summary>
    private static async Task<string[]> AskAsync(NpgsqlConnection database, string question, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(question, database);
        await using var reader = await command.ExecuteReaderAsync(stop);
        await reader.ReadAsync(stop);
        return [.. Enumerable.Range(0, reader.FieldCount).Select(reader.GetString)];
    }
}
