namespace TeamCircle.Testing.Faults;

/// <summary>A PostgreSQL that was killed with -9.</summary>
public static class KilledServer
{
    /// <summary>
    /// Waits until the process that its lock file names is gone altogether. One that has ended and was not yet asked for by the machine's first process takes signals
    /// still, so PostgreSQL believes in a running server and does not start; the first process may take some seconds (seen: two).
    /// </summary>
    /// <param name="folder">Of the private server.</param>
    public static async Task GoneAsync(string folder, CancellationToken stop)
    {
        var first = File.ReadLines(Path.Combine(folder, "cluster", "postmaster.pid")).First();
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        while (Directory.Exists($"/proc/{first}"))
            await pace.WaitForNextTickAsync(stop);
    }
}
