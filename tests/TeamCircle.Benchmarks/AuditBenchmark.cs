using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Seed;

namespace TeamCircle.Benchmarks;

/// <summary>
/// The audit of a whole agency against its floor: the same rows and columns of the period (sessions, probes, planned
/// visits, decisions), as the application role under its policy, by the binary exporter stepping every row and reading every column. Beside it a
/// second floor: the same queries, read from the stream as the audit itself reads.
/// </summary>
internal static class AuditBenchmark
{
    private const int WarmUps = 8;

    /// <param name="kept">A folder that keeps the rows from run to run, since making them takes minutes; null for one that is deleted.</param>
    public static Task RunAsync(IReadOnlyList<int> sizes, string? kept) => PrivateServer.UseAsync(kept, async (services, owner) =>
    {
        foreach (var size in sizes)
            await MeasureAsync(services, owner, size);
    });

    private static async Task MeasureAsync(ServiceProvider services, string owner, int learners)
    {
        var portal = services.GetRequiredService<Portal>();
        var agency = await AgencyAsync(owner, learners);
        var scope = new Scope(Wall.Agency, agency, 0, [], true, "a benchmark");
        var period = await portal.ReadAsync(scope, db => db.Periods.SingleAsync(p => p.AgencyId == agency && p.Name == LoadSeed.Period));
        var read = ActivatorUtilities.CreateInstance<ReadAudit>(services);
        var lines = 0;
        long rows = 0;
        var peak = new Peak();
        Rounds rounds;
        using (peak)
        {
            rounds = await Rounds.MeasureAsync(
                async () => rows = await FloorAsync(portal, scope, period, Step),
                async () => lines = (await read.RunAsync(scope, period.Id, LoadSeed.AsOf))!.Lines.Count, WarmUps);
        }
        var streamed = await Rounds.MeasureAsync(
            () => FloorAsync(portal, scope, period, Step), () => FloorAsync(portal, scope, period, StepStream), WarmUps);
        Console.WriteLine($"{learners} learners, {lines} lines, {rows} rows: floor {rounds.FloorMedian:0} ms, audit {rounds.WorkMedian:0} ms, "
            + $"ratio {rounds.Ratio}; {peak}; floor by the stream {streamed.WorkMedian:0} ms, {streamed.Ratio} of the other floor");
    }

    /// <summary>The number of the agency of this size, made where there is none yet.</summary>
    internal static async Task<int> AgencyAsync(string owner, int learners)
    {
        await using var database = new NpgsqlConnection(owner);
        await database.OpenAsync();
        if (await new NpgsqlCommand($"select portal.agency_id_of('LOAD{learners}')", database).ExecuteScalarAsync() is int known)
            return known;
        var began = TimeProvider.System.GetTimestamp();
        var made = await LoadSeed.RunAsync(owner, new($"LOAD{learners}", learners, 1), Console.Error.WriteLine);
        Console.WriteLine($"{learners} learners: {made}, made in {TimeProvider.System.GetElapsedTime(began).TotalSeconds:0} s");
        return made.Agency;
    }

    private static async Task<long> FloorAsync(Portal portal, Scope scope, PeriodRow period, Func<NpgsqlConnection, int, string, long> step)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead);
        var days = $"between '{period.StartDay:uuuu-MM-dd}' and '{period.EndDay:uuuu-MM-dd}'";
        var agency = $"agency_id = {scope.AgencyId}";
        return await Task.Run(() =>
            step(work.Connection, 5, $"select service_id, provider_id, on_day - date '0001-01-01', credited, coalesce(pays_on - date '0001-01-01', -1) from portal.sessions where {agency} and live and outcome = 'Given' and award_id is null and on_day {days}")
            + step(work.Connection, 4, $"select goal_id, provider_id, on_day - date '0001-01-01', coalesce(pays_on - date '0001-01-01', -1) from portal.probes where {agency} and live and kind = 'Probe' and on_day {days}")
            + step(work.Connection, 6, $"select service_id, learner_id, provider_id, on_day - date '0001-01-01', minutes, coalesce(pays_on - date '0001-01-01', -1) from portal.visits where {agency} and live and state = 'Planned' and award_id is null and on_day {days}")
            + step(work.Connection, 6, $"select id, coalesce(service_id, 0), coalesce(goal_id, 0), on_day - date '0001-01-01', amount, coalesce(sessions, -1) from portal.decisions where {agency} and live"));
    }

    private static long StepStream(NpgsqlConnection connection, int columns, string query)
    {
        long count = 0;
        CopyRows.Read(connection, query, row =>
        {
            for (var i = 0; i < columns; i++)
                _ = row.Int();
            count++;
        });
        return count;
    }

    private static long Step(NpgsqlConnection connection, int columns, string query)
    {
        using var rows = connection.BeginBinaryExport($"copy ({query}) to stdout (format binary)");
        long count = 0;
        while (rows.StartRow() >= 0)
        {
            for (var i = 0; i < columns; i++)
                _ = rows.Read<int>();
            count++;
        }
        return count;
    }
}
