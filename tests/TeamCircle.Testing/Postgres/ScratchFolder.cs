using System.Diagnostics;
using System.Globalization;
using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Testing.Postgres;

/// <summary>Short-lived folders for test servers, and the clearing away of those that a killed test run left behind.</summary>
public static class ScratchFolder
{
    private const string Prefix = "teamcircle-tests-";

    /// <summary>A new folder that every account may pass through, for PostgreSQL runs under another one where we are root.</summary>
    public static string Make()
    {
        var folder = Path.Combine(Path.GetTempPath(), $"{Prefix}{Environment.ProcessId}-{Path.GetRandomFileName()[..8]}");
        Directory.CreateDirectory(folder);
        return folder;
    }

    /// <summary>Stops and deletes what belongs to no living process; the folder's name carries its process.</summary>
    public static async Task SweepAsync()
    {
        foreach (var folder in Directory.GetDirectories(Path.GetTempPath(), Prefix + "*").Where(IsAbandoned))
        {
            try
            {
                await PostgresLauncher.StopAbandonedAsync(new PostgresOptions(folder));
                Directory.Delete(folder, recursive: true);
            }
            catch (Exception notOurs) when (notOurs is StartupFailure or UnauthorizedAccessException or IOException)
            {
                // Another account's, or another run is clearing it at this moment, or a small disk is still mounted in it.
            }
        }
    }

    private static bool IsAbandoned(string folder)
    {
        try
        {
            Process.GetProcessById(int.Parse(Path.GetFileName(folder).Split('-')[2], CultureInfo.InvariantCulture)).Dispose();
            return false;
        }
        catch (ArgumentException) // there is no such process
        {
            return true;
        }
    }
}
