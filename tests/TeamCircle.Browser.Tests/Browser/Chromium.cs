using System.ComponentModel;
using System.Diagnostics;
using Microsoft.Playwright;

namespace TeamCircle.Browser.Tests.Browser;

/// <summary>The browser of this machine; installs one where it may.</summary>
internal static class Chromium
{
    private const string Missing =
        "The browser tests need Chromium and could not install it: install it (on Debian 'apt-get install chromium'), or set CHROMIUM to the path of Chromium or Chrome.";

    /// <exception cref="InvalidOperationException">There is none and it can't be installed; the message says what to do.</exception>
    public static async Task<IBrowser> LaunchAsync(IPlaywright playwright) =>
        await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Find() ?? await InstallAsync(playwright),
            Headless = true,
            ChromiumSandbox = !(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess), // it refuses to run as root with it
            Args = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });

    private static string? Find()
    {
        if (Environment.GetEnvironmentVariable("CHROMIUM") is { Length: > 0 } chosen)
            return chosen;
        string[] names = OperatingSystem.IsWindows() ? ["chrome.exe"] : ["chromium", "chromium-browser", "google-chrome"];
        string[] installed =
        [
            "/Applications/Chromium.app/Contents/MacOS/Chromium",
            "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
            Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "Google", "Chrome", "Application", "chrome.exe"),
        ];
        var onPath = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
            .SelectMany(folder => names.Select(name => Path.Combine(folder, name)));
        return onPath.Concat(installed).FirstOrDefault(File.Exists);
    }

    /// <summary>By the system's packages as root; else by the test library's own download, which needs no rights.</summary>
    private static async Task<string> InstallAsync(IPlaywright playwright)
    {
        if (OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess
            && await RunAsync("apt-get", "update", "-qq")
            && await RunAsync("apt-get", "install", "-qq", "-y", "--no-install-recommends", "chromium")
            && Find() is { } installed)
            return installed;
        if (Microsoft.Playwright.Program.Main(["install", "chromium"]) == 0 && File.Exists(playwright.Chromium.ExecutablePath))
            return playwright.Chromium.ExecutablePath;
        throw new InvalidOperationException(Missing);
    }

    private static async Task<bool> RunAsync(string program, params string[] arguments)
    {
        try
        {
            var start = new ProcessStartInfo(program, arguments);
            start.Environment["DEBIAN_FRONTEND"] = "noninteractive";
            using var process = Process.Start(start)!;
            await process.WaitForExitAsync();
            return process.ExitCode == 0;
        }
        catch (Win32Exception) // there is no such program
        {
            return false;
        }
    }
}
