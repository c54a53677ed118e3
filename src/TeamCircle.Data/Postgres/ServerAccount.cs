using System.Diagnostics;

namespace TeamCircle.Data.Postgres;

/// <summary>The system account that PostgreSQL runs under. PostgreSQL refuses root, so root hands over to another.</summary>
/// <param name="UserName">The account to change to, or null to stay the one that we are.</param>
internal sealed record ServerAccount(string? UserName)
{
    private const UnixFileMode OnlyOwner = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    /// <exception cref="StartupFailure">We are root and there is no account to change to.</exception>
    public static ServerAccount ForThisProcess()
    {
        // On Windows initdb and pg_ctl give up an administrator's rights by themselves.
        if (OperatingSystem.IsWindows() || !Environment.IsPrivilegedProcess)
            return new ServerAccount((string?)null);

        var known = File.ReadLines("/etc/passwd").Select(line => line.Split(':')[0]).ToHashSet();
        string[] wanted = ["postgres", "_postgres", "nobody"];
        return new ServerAccount(wanted.FirstOrDefault(known.Contains)
            ?? throw new StartupFailure("PostgreSQL does not run as root, and there is no account 'postgres' or 'nobody' to change to: start as an ordinary user."));
    }

    /// <summary>Makes the folder where it is missing, open to this account alone.</summary>
    public async Task OwnFolderAsync(string path, CancellationToken stop)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
            return;
        }
        Directory.CreateDirectory(path, OnlyOwner);
        File.SetUnixFileMode(path, OnlyOwner); // refused where somebody else made the folder before us
        await OwnAsync(path, stop);
    }

    /// <summary>Gives a file or folder to this account.</summary>
    public Task OwnAsync(string path, CancellationToken stop) => OwnAsync("-h", path, stop);

    /// <summary>Gives a folder with all that is in it to this account.</summary>
    public Task OwnAllAsync(string path, CancellationToken stop) => OwnAsync("-hR", path, stop);

    private async Task OwnAsync(string how, string path, CancellationToken stop)
    {
        if (UserName is null)
            return;
        using var chown = Process.Start(new ProcessStartInfo("chown", [how, UserName + ":", path]))!;
        await chown.WaitForExitAsync(stop);
        if (chown.ExitCode != 0)
            throw new StartupFailure($"{path} can't be given to the account '{UserName}': choose another folder with TEAMCIRCLE_DATA.");
    }

    /// <summary>True where this account may pass through every folder above the path.</summary>
    /// <remarks>Where we change to another account, only what is open to everybody counts.</remarks>
    public bool Reaches(string path)
    {
        if (OperatingSystem.IsWindows() || UserName is null)
            return true;
        for (var folder = Path.GetDirectoryName(path); folder is not null; folder = Path.GetDirectoryName(folder))
            if (Directory.Exists(folder) && !File.GetUnixFileMode(folder).HasFlag(UnixFileMode.OtherExecute))
                return false;
        return true;
    }

    /// <summary>Runs a program to its end as this account, and gives its exit code and all that it printed.</summary>
    public async Task<(int ExitCode, string Output)> RunAsync(string program, IEnumerable<string> arguments, string folder, CancellationToken stop)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
        };
        if (UserName is not null)
            start.UserName = UserName;
        start.Environment["LC_ALL"] = "C"; // messages in English: some are looked at

        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(stop);
        var errors = process.StandardError.ReadToEndAsync(stop);
        await process.WaitForExitAsync(stop);
        return (process.ExitCode, await output + await errors);
    }
}
