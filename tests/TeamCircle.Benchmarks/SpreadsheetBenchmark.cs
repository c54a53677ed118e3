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

    // A make-up pays a week at most so long before it.
    private const int WeeksBefore = 20;

    public static Task RunAsync(int learners, string? kept) => PrivateServer.UseAsync(kept, async (services, owner) =>
        await MeasureAsync(services, learners, new Scope(Wall.Agency, await AuditBenchmark.AgencyAsync(owner, learners), 0, [], true, "a benchmark")));

    private static async Task MeasureAsync(ServiceProvider services, int learners, Scope scope)
    {
        var portal = services.GetRequiredService<Portal>();
        var period = await portal.ReadAsync(scope, db => db.Periods.SingleAsync(p => p.AgencyId == scope.AgencyId && p.Name == Period));
        var read = ActivatorUtilities.CreateInstance<ReadAudit>(services);
        var asOf = period.EndDay.PlusDays(3); // every week of the period is past
        var audit = (await read.RunAsync(scope, period.Id, asOf))!;
        List<AuditLine> weekly = [.. audit.Lines.Where(l => !l.Line.IsProbes && l.Line.Promise.Every is { Unit: EveryUnit.Week, Count: 1 } && l.Balance.Minutes.NotOwed == 0)];
        var weeks = Weeks(period.StartDay, period.EndDay);
        var visits = Clerk.Enter(await GivenAsync(portal, scope, period.StartDay.PlusWeeks(-WeeksBefore), asOf), weekly.ToDictionary(l => l.Line.Id, l => l.Balance.Minutes.Owed / weeks.Count));
        visits.RemoveAll(v => v.Day < period.StartDay);
        using var sheet = new SpreadsheetFile(visits, [.. weekly.Select(l => (l.Line.Id, l.Balance.Minutes.Owed))], weeks);
        var lacks = new Dictionary<int, int>();
        var rounds = await Rounds.MeasureAsync(async () => await read.RunAsync(scope, period.Id, asOf), () => { lacks = sheet.Calculate(); return Task.CompletedTask; }, warmUps: 1, counted: learners > 500 ? 1 : 3);
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

    /// <summary>What was given on some days, as it came: the service, the day, a day of the week that it makes up for, minutes.</summary>
    private static async Task<List<Given>> GivenAsync(Portal portal, Scope scope, LocalDate first, LocalDate last)
    {
        await using var work = await portal.OpenAsync(scope, System.Data.IsolationLevel.RepeatableRead);
        await using var command = new NpgsqlCommand("""
            select service_id, on_day, pays_on, credited from portal.sessions
            where agency_id = $1 and live and outcome = 'Given' and award_id is null and on_day between $2 and $3 order by on_day, start_time, id
            """, work.Connection)
        { Parameters = { new() { Value = scope.AgencyId }, new() { Value = first }, new() { Value = last } } };
        await using var rows = await command.ExecuteReaderAsync();
        List<Given> visits = [];
        while (await rows.ReadAsync())
            visits.Add(new(rows.GetInt32(0), rows.GetFieldValue<LocalDate>(1), rows.IsDBNull(2) ? null : rows.GetFieldValue<LocalDate>(2), rows.GetInt32(3)));
        return visits;
    }

    private sealed record Given(int Service, LocalDate Day, LocalDate? Pays, int Minutes);

    /// <summary>A clerk who enters visits into the list: what a make-up pays stands in the week that lacked it, and the rest of it on the day on which it was given.</summary>
    private static class Clerk
    {
        /// <param name="owed">Minutes a week, by service; of others no make-up is believed to pay anything.</param>
        public static List<(int Service, LocalDate Day, int Minutes)> Enter(List<Given> visits, Dictionary<int, int> owed)
        {
            bool IsOrdinary(Given visit) => visit.Pays is not { } pays || Monday(pays) == Monday(visit.Day);
            var inWeek = visits.Where(IsOrdinary).GroupBy(v => (v.Service, Monday(v.Day))).ToDictionary(g => g.Key, g => g.Sum(v => v.Minutes));
            var entered = visits.Where(IsOrdinary).Select(v => (v.Service, v.Day, v.Minutes)).ToList();
            foreach (var visit in visits.Where(v => !IsOrdinary(v)))
            {
                var (week, own) = ((visit.Service, Monday(visit.Pays!.Value)), (visit.Service, Monday(visit.Day)));
                var paid = Math.Clamp(owed.GetValueOrDefault(visit.Service) - inWeek.GetValueOrDefault(week), 0, visit.Minutes);
                inWeek[week] = inWeek.GetValueOrDefault(week) + paid;
                inWeek[own] = inWeek.GetValueOrDefault(own) + visit.Minutes - paid;
                entered.Add((visit.Service, visit.Pays.Value, paid));
                entered.Add((visit.Service, visit.Day, visit.Minutes - paid));
            }
            return entered;
        }

        private static LocalDate Monday(LocalDate day) => day.PlusDays(1 - (int)day.DayOfWeek);
    }
}
