using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Time;
using TeamCircle.Data;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Seed;

namespace TeamCircle.Benchmarks;

/// <summary>
/// The same period worked out by what teams use without a portal: a spreadsheet with a list of visits and one formula for each service and week,
/// calculated by a general office suite (<c>soffice</c> on the path), against the audit of the whole agency.
/// </summary>
/// <remarks>Only services that are promised by the week and of which nothing was decided not to be owed, and only weeks that close within the period: there no
/// rule rounds or prorates, so that both must come to the same minutes. The audit beside it does everything else as well.</remarks>
internal static class SpreadsheetBenchmark
{
    private const string Period = "Period 1";

    public static Task RunAsync(int learners, string? kept) => PrivateServer.UseAsync(kept, async (services, owner) =>
        await MeasureAsync(services, new Scope(Wall.Agency, await AuditBenchmark.AgencyAsync(owner, learners), 0, [], true, "a benchmark")));

    private static async Task MeasureAsync(ServiceProvider services, Scope scope)
    {
        var portal = services.GetRequiredService<Portal>();
        var period = await portal.ReadAsync(scope, db => db.Periods.SingleAsync(p => p.AgencyId == scope.AgencyId && p.Name == Period));
        var read = ActivatorUtilities.CreateInstance<ReadAudit>(services);
        var asOf = period.EndDay.PlusDays(3); // every week of the period is past
        var audit = (await read.RunAsync(scope, period.Id, asOf))!;
        List<AuditLine> weekly = [.. audit.Lines.Where(l => !l.Line.IsProbes && l.Line.Promise.Every is { Unit: EveryUnit.Week, Count: 1 } && l.Balance.Minutes.NotOwed == 0)];
        var visits = await VisitsAsync(portal, scope, period.StartDay, asOf);
        using var sheet = new SpreadsheetFile(visits, [.. weekly.Select(l => (l.Line.Id, l.Balance.Minutes.Owed))], Weeks(period.StartDay, period.EndDay));
        var lacks = new Dictionary<int, int>();
        var rounds = await Rounds.MeasureAsync(async () => await read.RunAsync(scope, period.Id, asOf), () => { lacks = sheet.Calculate(); return Task.CompletedTask; }, warmUps: 1, counted: 3);
        var unlike = weekly.Where(l => lacks[l.Line.Id] != l.Balance.Minutes.Lack).ToList();
        Console.WriteLine($"{audit.Lines.Count} lines audited in {rounds.FloorMedian:0} ms; spreadsheet: {visits.Count} visits, {weekly.Count} services by {sheet.Weeks.Count} weeks, "
            + $"{rounds.WorkMedian / 1000:0.0} s, ratio {rounds.Ratio}; without formulas {Timed(sheet.OpenOnly) / 1000:0.0} s; {unlike.Count} services unlike, {lacks.Values.Sum()} minutes lacking");
        foreach (var line in unlike.Take(5))
            Console.WriteLine($"  {line.Line.Code}: spreadsheet {lacks[line.Line.Id]}, audit {line.Balance.Minutes}");
    }

    private static double Timed(Action what)
    {
        var watch = Stopwatch.StartNew();
        what();
        return watch.Elapsed.TotalMilliseconds;
    }

    /// <summary>The Mondays of the weeks whose Friday, the last day of school, is in the period.</summary>
    private static List<LocalDate> Weeks(LocalDate first, LocalDate last) =>
        [.. Enumerable.Range(0, 60).Select(first.PlusWeeks).TakeWhile(monday => monday.PlusDays(4) <= last)];

    /// <summary>What was given up to the last day, and counts on the first or later: the service, the day it counts on (for a make-up, a day of the window that it pays), minutes.</summary>
    private static async Task<List<(int Service, LocalDate Day, int Minutes)>> VisitsAsync(Portal portal, Scope scope, LocalDate first, LocalDate last)
    {
        await using var work = await portal.OpenAsync(scope, System.Data.IsolationLevel.RepeatableRead);
        await using var command = new NpgsqlCommand(
            "select service_id, coalesce(pays_on, on_day), credited from portal.sessions where agency_id = $1 and live and outcome = 'Given' and coalesce(pays_on, on_day) >= $2 and on_day <= $3", work.Connection)
        { Parameters = { new() { Value = scope.AgencyId }, new() { Value = first }, new() { Value = last } } };
        await using var rows = await command.ExecuteReaderAsync();
        List<(int, LocalDate, int)> visits = [];
        while (await rows.ReadAsync())
            visits.Add((rows.GetInt32(0), rows.GetFieldValue<LocalDate>(1), rows.GetInt32(2)));
        return visits;
    }
}
