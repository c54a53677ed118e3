using System.Diagnostics;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>The portal as a process of its own, to be stopped and killed like one.</summary>
internal sealed class PortalProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly Process _process;
    private readonly Task<string> _errors;

    private PortalProcess(Process process) => (_process, _errors) = (process, process.StandardError.ReadToEndAsync());

    /// <param name="urls">Where it is to listen; a port 0 takes any free one.</param>
    /// <param name="account">The system account to run as; null for our own. Only root may name another.</param>
    /// <param name="plainHttp">For a client that reaches it without https.</param>
    /// <param name="settings">Further environment variables.</param>
    public static PortalProcess Start(
        string dataFolder, string urls = "http://127.0.0.1:0", string? connectionString = null, string? account = null, bool plainHttp = false,
        IReadOnlyDictionary<string, string>? settings = null)
    {
        var portal = Path.Combine(AppContext.BaseDirectory, "TeamCircle.Web.dll");
        var start = new ProcessStartInfo("dotnet", [portal, "--urls", urls])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = AppContext.BaseDirectory,
        };
        start.Environment["TEAMCIRCLE_DATA"] = dataFolder;
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

    /// <summary>Waits until the portal says where it is, and gives that address.</summary>
    public async Task<Uri> AddressAsync()
    {
        const string said = "TeamCircle is at ";
        while (await _process.StandardOutput.ReadLineAsync().WaitAsync(Patience) is { } line)
            if (line.StartsWith(said, StringComparison.Ordinal))
                return new Uri(line[said.Length..]);
        throw new InvalidOperationException("The portal ended: " + await _errors);
    }

    /// <summary>Asks it to stop as Ctrl+C and a service manager do, and gives its exit code.</summary>
    public async Task<int> StopAsync()
    {
        using (var kill = Process.Start("kill", ["-TERM", _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
            await kill.WaitForExitAsync();
        await _process.WaitForExitAsync().WaitAsync(Patience);
        return _process.ExitCode;
    }

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

    public void Dispose()
    {
        if (!_process.HasExited)
            _process.Kill();
        _process.Dispose();
    }
}
