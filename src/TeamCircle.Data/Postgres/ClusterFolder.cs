using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;

namespace TeamCircle.Data.Postgres;

/// <summary>The folder of one private server: what lies where in it, and who may touch it.</summary>
/// <remarks>
/// <c>cluster</c> PostgreSQL's own files; <c>socket</c> where programs reach it; <c>log</c> seven files, one a weekday;
/// <c>password</c> of the bootstrap role, used over TCP; <c>owner.lock</c> held by the process that will stop the server.
/// </remarks>
internal sealed class ClusterFolder
{
    // The longest address of a Unix socket is 107 bytes on Linux and 103 on macOS.
    private const int LongestSocketPath = 103;
    private readonly ServerAccount _account;
    private readonly PostgresOptions _options;

    private ClusterFolder(PostgresOptions options, ServerAccount account, string root)
    {
        (_options, _account, Root) = (options, account, root);
        SocketFolder = ShortEnough(Path.Combine(root, "socket"));
    }

    public string Root { get; }
    public string SocketFolder { get; }
    public string Cluster => Path.Combine(Root, "cluster");
    public string LogFolder => Path.Combine(Root, "log");
    public string StartLog => Path.Combine(LogFolder, "start.log");
    private string PasswordFile => Path.Combine(Root, "password");

    /// <summary>The version that made the data, or null where there are none.</summary>
    public int? Version =>
        File.Exists(Path.Combine(Cluster, "PG_VERSION"))
            ? int.Parse(File.ReadAllText(Path.Combine(Cluster, "PG_VERSION")), CultureInfo.InvariantCulture)
            : null;

    /// <summary>Makes what is missing of the folder.</summary>
    /// <exception cref="StartupFailure">It can't be written to.</exception>
    public static async Task<ClusterFolder> OpenAsync(PostgresOptions options, ServerAccount account, CancellationToken stop)
    {
        var folder = new ClusterFolder(options, account, Reachable(options, account));
        try
        {
            Directory.CreateDirectory(folder.Root);
            await account.OwnFolderAsync(folder.LogFolder, stop);
            if (!options.OverTcp)
                await account.OwnFolderAsync(folder.SocketFolder, stop);
            return folder;
        }
        catch (Exception cause) when (cause is UnauthorizedAccessException or IOException)
        {
            throw new StartupFailure($"{folder.Root} can't be written to by {Environment.UserName}: open it to that account, or set TEAMCIRCLE_DATA to another folder.", cause);
        }
    }

    /// <summary>Taken by the first process that opens the folder and kept to its end, also a sudden one; null for all others.</summary>
    public FileStream? TakeOwnership()
    {
        try
        {
            return new FileStream(Path.Combine(Root, "owner.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException busy) when (busy.HResult is 11 or 35 or unchecked((int)0x80070020)) // EAGAIN on Linux, on macOS, sharing violation
        {
            return null;
        }
        catch (Exception cause) when (cause is UnauthorizedAccessException or IOException)
        {
            throw new StartupFailure($"{Root} can't be written to by {Environment.UserName}: open it to that account, or set TEAMCIRCLE_DATA to another folder.", cause);
        }
    }

    /// <summary>Makes an empty cluster. One that was interrupted never bears the final name.</summary>
    public async Task InitialiseAsync(PostgresFiles files, CancellationToken stop)
    {
        var unfinished = Cluster + ".new";
        if (Directory.Exists(unfinished))
            Directory.Delete(unfinished, recursive: true);
        await _account.OwnFolderAsync(unfinished, stop);
        await WritePasswordAsync(stop);

        string[] arguments =
        [
            "-D", unfinished, "-U", PostgresServer.Bootstrap, "-E", "UTF8",
            OperatingSystem.IsLinux() ? "--locale=C.UTF-8" : "--locale=C",
            "--auth-local=trust", "--auth-host=scram-sha-256", "--pwfile=" + PasswordFile,
            "--no-instructions", .. _options.Durable ? [] : new[] { "--no-sync" },
        ];
        var (exitCode, output) = await _account.RunAsync(files.Program("initdb"), arguments, unfinished, stop);
        if (exitCode != 0)
            throw new StartupFailure($"PostgreSQL could not make its files in {Root}: {LastLine(output)}");

        await File.AppendAllTextAsync(Path.Combine(unfinished, "postgresql.conf"), "\ninclude_if_exists = 'portal.conf'\n", stop);
        Directory.Move(unfinished, Cluster);
    }

    /// <summary>Writes the settings of the next start.</summary>
    /// <param name="port">The loopback port, or null for the socket alone.</param>
    public Task WriteSettingsAsync(int? port, CancellationToken stop)
    {
        var settings = new Dictionary<string, string>
        {
            ["listen_addresses"] = port is null ? "" : "127.0.0.1",
            ["port"] = (port ?? 5432).ToString(CultureInfo.InvariantCulture),
            ["unix_socket_directories"] = port is null ? SocketFolder : "",
            ["timezone"] = "UTC",
            // The log is searched for names like every other: no statements, no values, no failed rows.
            ["logging_collector"] = "on",
            ["log_directory"] = LogFolder,
            ["log_filename"] = "postgresql-%a.log",
            ["log_truncate_on_rotation"] = "on",
            ["log_timezone"] = "UTC",
            ["log_error_verbosity"] = "terse",
            ["log_min_messages"] = "log",
            ["log_min_error_statement"] = "panic",
            ["log_statement"] = "none",
            ["log_parameter_max_length"] = "0",
            ["log_parameter_max_length_on_error"] = "0",
        };
        if (!_options.Durable)
        {
            settings["fsync"] = settings["synchronous_commit"] = settings["full_page_writes"] = "off";
            settings["max_connections"] = "400"; // many portals share a test server
        }

        var text = new StringBuilder("# Written anew at each start; your own settings go into postgresql.auto.conf by ALTER SYSTEM.\n");
        foreach (var (name, value) in settings)
            text.Append(CultureInfo.InvariantCulture, $"{name} = '{value.Replace("\\", "/", StringComparison.Ordinal).Replace("'", "''", StringComparison.Ordinal)}'\n");
        return File.WriteAllTextAsync(Path.Combine(Cluster, "portal.conf"), text.ToString(), stop);
    }

    /// <summary>Where the running server listens, from its own note; null where it left none.</summary>
    public PostgresAddress? ReadAddress()
    {
        try
        {
            // pid, data folder, start time, port, socket folder, listen address
            var lines = File.ReadAllLines(Path.Combine(Cluster, "postmaster.pid"));
            if (lines.Length < 6)
                return null;
            var port = int.Parse(lines[3], CultureInfo.InvariantCulture);
            return lines[4].Length > 0
                ? new PostgresAddress(lines[4], port, null)
                : new PostgresAddress("127.0.0.1", port, File.ReadAllText(PasswordFile));
        }
        catch (IOException) // there is none, or it is being written
        {
            return null;
        }
    }

    public int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, _options.Port);
        try
        {
            listener.Start();
            return ((IPEndPoint)listener.LocalEndpoint).Port;
        }
        catch (SocketException cause)
        {
            throw new StartupFailure($"Port {_options.Port} on this machine is taken: stop the program that uses it, or choose another for the database.", cause);
        }
    }

    /// <summary>The line of an output or log that tells most: the last that is fatal, else the last.</summary>
    public static string LastLine(string output)
    {
        var lines = output.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return lines.LastOrDefault(line => line.Contains("FATAL", StringComparison.Ordinal) || line.Contains("error:", StringComparison.Ordinal))
            ?? lines.LastOrDefault() ?? "it gave no reason.";
    }

    private async Task WritePasswordAsync(CancellationToken stop)
    {
        var create = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            create.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        await using (var file = new StreamWriter(PasswordFile, create))
            await file.WriteAsync(RandomNumberGenerator.GetHexString(48, lowercase: true));
        await _account.OwnAsync(PasswordFile, stop);
    }

    private static string Reachable(PostgresOptions options, ServerAccount account)
    {
        if (account.Reaches(options.Folder))
            return options.Folder;
        if (options.FolderIsChosen)
            throw new StartupFailure($"The account '{account.UserName}', which PostgreSQL runs under, may not enter a folder above {options.Folder}: set TEAMCIRCLE_DATA to a folder whose parents are open to it.");

        var instead = Path.Combine(PostgresFiles.SharedFolder, "data", PostgresFiles.ShortHash(options.Folder));
        options.Note($"The database lies in {instead}, because the account '{account.UserName}' may not enter {options.Folder}.");
        return instead;
    }

    private static string ShortEnough(string folder)
    {
        if (Encoding.UTF8.GetByteCount(Path.Combine(folder, ".s.PGSQL.5432")) <= LongestSocketPath)
            return folder;
        var parent = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess
            ? "/run/teamcircle"
            : Environment.GetEnvironmentVariable("XDG_RUNTIME_DIR") is { Length: > 0 } own ? own : "/tmp";
        return Path.Combine(parent, "teamcircle-" + PostgresFiles.ShortHash(folder));
    }
}
