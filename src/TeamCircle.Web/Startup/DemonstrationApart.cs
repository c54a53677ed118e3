using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Web.Startup;

/// <summary>
/// <c>TeamCircle.Web demonstration</c>: the demonstration beside a portal that holds real records. It has a folder, a database, a key and a port of its own, knows none
/// of the real portal's settings, and is removed whole when it ends.
/// </summary>
internal sealed class DemonstrationApart : IDisposable
{
    private const string Word = "demonstration", Leave = "leave", Port = "http://localhost:5099";

    /// <summary>Settings without a section, by which the real portal's secrets or listeners could come in. All with a section go, whatever they are called.</summary>
    private static readonly string[] Own = ["TEAMCIRCLE_SEAL_KEY", "TEAMCIRCLE_PLAIN_DATABASE", "ASPNETCORE_URLS", "URLS", "ASPNETCORE_FORWARDEDHEADERS_ENABLED", "Proxy", "AllowedHosts"];

    private readonly string _folder;
    private readonly FileStream _hold;

    private DemonstrationApart(string folder, FileStream hold, string[] args) => (_folder, _hold, Args) = (folder, hold, args);

    /// <summary>What the portal is started with in place of the arguments that were given.</summary>
    public string[] Args { get; }

    /// <summary>Clears what one that was killed left behind, and from then on lets this process see nothing but the demonstration's own folder.</summary>
    /// <returns>Null where no demonstration was asked for.</returns>
    /// <exception cref="StartupFailure">It can't be entered; the message says what to do.</exception>
    public static async Task<DemonstrationApart?> EnterAsync(string[] args)
    {
        if (args is not [Word, .. var more])
            return null;
        string[] urls = more switch
        {
            [] or [Leave] => ["--urls", Port],
            ["--urls", var address] => ["--urls", address],
            _ => throw new StartupFailure($"Write {Word}, {Word} --urls ADDRESS, or {Word} {Leave}."),
        };
        var folder = Path.Combine(PortalFolders.From(Directory.GetCurrentDirectory()).Data, Word);
        var apart = new DemonstrationApart(folder, Hold(folder), more is [Leave] ? [] : urls);
        await ClearAsync(folder);
        foreach (var name in Environment.GetEnvironmentVariables().Keys.Cast<string>().Where(n => n.Contains("__", StringComparison.Ordinal) || Own.Contains(n, StringComparer.OrdinalIgnoreCase)))
            Environment.SetEnvironmentVariable(name, null);
        Environment.SetEnvironmentVariable("TEAMCIRCLE_DATA", folder);
        Environment.SetEnvironmentVariable("ASPNETCORE_ENVIRONMENT", Environments.Development);
        Environment.SetEnvironmentVariable("DOTNET_ENVIRONMENT", null);
        if (!apart.IsLeaving)
            Console.WriteLine("A demonstration, apart from every real agency. Ctrl+C ends it and removes everything in it.");
        return apart;
    }

    /// <summary>Asked only to clear what was left.</summary>
    public bool IsLeaving => Args.Length == 0;

    /// <summary>The database has stopped by now: nothing of the demonstration stays.</summary>
    public void Dispose()
    {
        if (Directory.Exists(_folder))
            Directory.Delete(_folder, recursive: true);
        _hold.Dispose();
        Console.WriteLine("The demonstration is gone, with everything in it.");
    }

    private static async Task ClearAsync(string folder)
    {
        if (!Directory.Exists(folder))
            return;
        await PostgresLauncher.StopAbandonedAsync(new PostgresOptions(Path.Combine(folder, "postgres")) { FolderIsChosen = true });
        Directory.Delete(folder, recursive: true);
    }

    private static FileStream Hold(string folder)
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(folder)!);
            return new FileStream(folder + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException)
        {
            throw new StartupFailure($"A demonstration is running in {folder} already: end it with Ctrl+C first.");
        }
        catch (UnauthorizedAccessException)
        {
            throw new StartupFailure($"{Path.GetDirectoryName(folder)} may not be written: set TEAMCIRCLE_DATA to a folder that may.");
        }
    }
}
