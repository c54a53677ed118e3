using System.CommandLine;
using System.Globalization;
using NodaTime;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Cli.Calendar;

/// <summary><c>derive-times</c>: puts the instants of visits right after a release brought new time-zone data. Exit code 1 where some were left.</summary>
internal static class DeriveTimesCommand
{
    private const int SomeLeft = 1;

    public static Command Create()
    {
        var agency = Desk.AgencyOption();
        var command = new Command("derive-times", "Derive the instants of all visits again from their local times, after a release with new time-zone data.") { agency };
        command.SetAction((parsed, stop) => Desk.RunAsync(desk => RunAsync(desk, parsed.GetValue(agency), stop), stop));
        return command;
    }

    private static async Task<int> RunAsync(Desk desk, string? agency, CancellationToken stop)
    {
        var scope = await desk.AgencyAsync(agency, "new time-zone data", stop);
        var saved = (await desk.Get<DeriveInstants>().RunAsync(scope, stop)).Value!;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"By time-zone data {DateTimeZoneProviders.Tzdb.VersionId}: {saved.Looked:N0} visits looked at, {saved.Changed:N0} put right, {saved.Left.Count:N0} left as they were."));
        foreach (var left in saved.Left)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {left.OnDay:uuuu-MM-dd} {left.Start:HH:mm}, visit {left.Visit}: {left.Why}"));
        return saved.Left.Count > 0 ? SomeLeft : 0;
    }
}
