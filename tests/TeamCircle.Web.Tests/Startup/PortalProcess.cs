using System.Diagnostics;
using TeamCircle.Data;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>The portal as a process of its own, to be stopped and killed like one: the one beside the tests, or a published one in the folder that TEAMCIRCLE_PORTAL names.</summary>
internal sealed class PortalProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3); // on a machine that is busy elsewhere a start takes one
    private static readonly string Folder = Environment.GetEnvironmentVariable("TEAMCIRCLE_PORTAL") is { Length: > 0 } named ? Path.GetFullPath(named) : AppContext.BaseDirectory;
    private readonly Process _process;
    private readonly Task<string> _errors;

    private PortalProcess(Process process) => (_process, _errors) = (process, process.StandardError.ReadToEndAsync());

    /// <param name="urls">Where it is to listen; a port 0 takes any free one.</param>
    /// <param name="account">The system account to run as; null for our own. Only root may name another.</param>
    /// <param name="plainHttp">For a client that reaches it without https.</param>
    /// <param name="settings">Further environment variables.</param>
    /// <param name="release">The folder of another release's portal; null for ours.</param>
    /// <param name="command">What stands before its arguments: "demonstration"; null for the portal itself.</param>
    public static PortalProcess Start(
        string dataFolder, string urls = "http://127.0.0.1:0", string? connectionString = null, string? account = null, bool plainHttp = false,
        IReadOnlyDictionary<string, string>? settings = null, string? release = null, string? command = null)
    {
        var folder = release is null ? Folder : Path.GetFullPath(release);
        var portal = Path.Combine(folder, "TeamCircle.Web.dll");
        var start = new ProcessStartInfo("dotnet", command is null ? [portal, "--urls", urls] : [portal, command, "--urls", urls])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
        };
        start.Environment["TEAMCIRCLE_DATA"] = dataFolder;
        start.Environment["DOTNET_TieredPGO"] = "0"; // it ends before measured code pays back its measuring
        start.Environment["ASPNETCORE_ENVIRONMENT"] = "Production";
        start.Environment["ConnectionStrings__TeamCircle"] = connectionString ?? "";
        start.Environment["PlainHttp"] = plainHttp ? "true" : "false";
        foreach (var (name, value) in settings ?? new Dictionary<string, string>())
            start.Environment[name] = value;
        if (account is not null)
        {
            start.UserName = account;
            start.Environment["HOME"] = dataFolder;
        }
        return new PortalProcess(Process.Start(start)!);
    }

    /// <summary>A further portal on the database of <paramref name="portal"/>, that seals under its key and holds nobody up for asking often.</summary>
    public static PortalProcess Start(AgencyPortal portal, string dataFolder, string moreOnConnection = "") =>
        Start(portal.Database, portal.SealKeyFile, dataFolder, moreOnConnection);

    /// <inheritdoc cref="Start(AgencyPortal, string, string)"/>
    public static PortalProcess Start(TestDatabase database, string sealKey, string dataFolder, string moreOnConnection = "", string? release = null) => Start(
        dataFolder, connectionString: database.ConnectionString(Migrate.App) + moreOnConnection, plainHttp: true, release: release, settings: new Dictionary<string, string>
        {
            ["TEAMCIRCLE_SEAL_KEY"] = sealKey,
            ["Limits__PersonEachMinute"] = "1000000",
            ["Limits__AddressEachMinute"] = "1000000",
            ["Limits__DevicesEachMinute"] = "1000000",
            ["Limits__SignInsEachMinute"] = "1000000",
        });

    /// <summary>Waits until the portal says where it is, and gives that address.</summary>
    public async Task<Uri> AddressAsync()
    {
        const string said = "TeamCircle is at ";
        while (await _process.StandardOutput.ReadLineAsync().WaitAsync(Patience) is { } line)
            if (line.StartsWith(said, StringComparison.Ordinal))
            {
                _ = _process.StandardOutput.BaseStream.CopyToAsync(Stream.Null); // else it stands still when the pipe is full of its log
                return new Uri(line[said.Length..]);
            }
        throw new InvalidOperationException("The portal ended: " + await _errors);
    }

    /// <summary>Asks it to stop as Ctrl+C and a service manager do, and gives its exit code.</summary>
    public async Task<int> StopAsync()
    {
        await SignalAsync("-TERM");
        await _process.WaitForExitAsync().WaitAsync(Patience);
        return _process.ExitCode;
    }

    /// <summary>Stands still, with all that it was doing, until it is told to go on.</summary>
    public Task PauseAsync() => SignalAsync("-STOP");

    public Task GoOnAsync() => SignalAsync("-CONT");

    /// <summary>Ends it at once, without a word to it.</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync().WaitAsync(Patience);
    }

    /// <summary>Waits for a portal that can't start: its exit code and all that it wrote to the error stream.</summary>
    public async Task<(int ExitCode, string Errors)> EndAsync()
    {
        await _process.StandardOutput.ReadToEndAsync().WaitAsync(Patience);
        await _process.WaitForExitAsync().WaitAsync(Patience);
        return (_process.ExitCode, await _errors);
    }

    private async Task SignalAsync(string signal)
    {
        using var kill = Process.Start("kill", [signal, _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
    }

    public void Dispose()
    {
        if (!_process.HasExited)
            _process.Kill();
        _process.Dispose();
    }
}
