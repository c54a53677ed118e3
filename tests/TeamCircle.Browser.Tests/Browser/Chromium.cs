using System.ComponentModel;
using System.Diagnostics;
using Microsoft.Playwright;

namespace TeamCircle.Browser.Tests.Browser;

/// <summary>The browser of this machine; installs one where it may.</summary>
/// <remarks>First Chromium without a window of its own, which takes three fifths of the processor time for the same pages; else the whole browser.</remarks>
internal static class Chromium
{
    private const string Windowless = "chromium-headless-shell";

    private const string Missing =
        "The browser tests need Chromium and could not install it: install it (on Debian 'apt-get install chromium'), or set CHROMIUM to the path of Chromium or Chrome.";

    /// <exception cref="InvalidOperationException">There is none and it can't be installed; the message says what to do.</exception>
    public static async Task<IBrowser> LaunchAsync(IPlaywright playwright) =>
        await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Chosen() ?? OnPath(Windowless) ?? await InstallAsync(Windowless) ?? Find() ?? await InstallAsync("chromium") ?? Fetch(playwright),
            Headless = true,
            ChromiumSandbox = !(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess), // it refuses to run as root with it
            Args = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });

    private static string? Chosen() => Environment.GetEnvironmentVariable("CHROMIUM") is { Length: > 0 } chosen ? chosen : null;

    private static string? Find()
    {
        string[] names = OperatingSystem.IsWindows() ? ["chrome.exe"] : ["chromium", "chromium-browser", "google-chrome"];
        string[] installed =
        [
            "/Applications/Chromium.app/Contents/MacOS/Chromium",
            "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
            Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "Google", "Chrome", "Application", "chrome.exe"),
        ];
        return names.Select(OnPath).OfType<string>().Concat(installed).FirstOrDefault(File.Exists);
    }

    private static string? OnPath(string name) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Select(folder => Path.Combine(folder, name)).FirstOrDefault(File.Exists);

    /// <summary>By the system's packages, as root; null where that can't be.</summary>
    private static async Task<string?> InstallAsync(string package) =>
        OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess
        && (await InstalledAsync(package) || (await RunAsync("apt-get", "update", "-qq") && await InstalledAsync(package)))
            ? OnPath(package) : null;

    private static Task<bool> InstalledAsync(string package) => RunAsync("apt-get", "install", "-qq", "-y", "--no-install-recommends", package);

    /// <summary>By the test library's own download, which needs no rights.</summary>
    private static string Fetch(IPlaywright playwright) =>
        Microsoft.Playwright.Program.Main(["install", "chromium"]) == 0 && File.Exists(playwright.Chromium.ExecutablePath)
            ? playwright.Chromium.ExecutablePath : throw new InvalidOperationException(Missing);

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
