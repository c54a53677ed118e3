using Microsoft.EntityFrameworkCore;
using Npgsql;
using NpgsqlTypes;
using TeamCircle.Core;
using TeamCircle.Core.Time;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// Derives when visits are, as instants, from what is the truth about them: local day, local start, minutes and zone. What an earlier release's
/// time-zone data gave otherwise is put right; what could then no longer stand beside another visit, or lies in a closed count, stays as it is and is listed.
/// </summary>
public sealed class DeriveInstants(Portal portal)
{
    /// <param name="Why">In words; names nobody.</param>
    public sealed record Left(Guid Visit, LocalDate OnDay, LocalTime Start, string Why);

    /// <param name="Looked">How many visits there are.</param>
    /// <param name="Changed">How many were put right, each with its change row.</param>
    public sealed record Saved(int Looked, int Changed, IReadOnlyList<Left> Left);

    private sealed record Stored(Guid Id, LocalDate OnDay, LocalTime Start, int Minutes, string Zone, NpgsqlRange<Instant> During)
    {
        public (Instant Start, Instant End) Span => WallTime.Span(OnDay + Start, Minutes, DateTimeZoneProviders.Tzdb[Zone]);

        public bool IsOff => Span != (During.LowerBound, During.UpperBound);
    }

    /// <param name="scope">The agency as a job, with the person who answers for it.</param>
    public Task<Outcome<Saved>> RunAsync(Scope scope, CancellationToken stop = default) =>
        portal.WriteAsync(scope, Operation.Own(nameof(DeriveInstants)), async db => Outcome<Saved>.Of(await AfterAsync(db, scope.AgencyId, null, stop)), stop);

    /// <summary>The same within somebody's transaction.</summary>
    /// <param name="day">Only visits after it; null for all.</param>
    internal static async Task<Saved> AfterAsync(PortalDb db, int agency, LocalDate? day, CancellationToken stop)
    {
        var (looked, off) = await FindAsync(db, agency, day, stop);
        var left = await ChangeAsync(db, agency, off, stop);
        return new(looked, off.Count - left.Count, left);
    }

    private static async Task<(int Looked, List<Stored> Off)> FindAsync(PortalDb db, int agency, LocalDate? day, CancellationToken stop)
    {
        var (looked, off) = (0, new List<Stored>());
        var all = db.Visits.AsNoTracking().Where(v => v.AgencyId == agency && (day == null || v.OnDay > day)).OrderBy(v => v.OnDay).ThenBy(v => v.StartTime).ThenBy(v => v.Id)
            .Select(v => new Stored(v.Id, v.OnDay, v.StartTime, v.Minutes, v.Zone, v.During));
        await foreach (var visit in all.AsAsyncEnumerable().WithCancellation(stop))
        {
            looked++;
            if (visit.IsOff)
                off.Add(visit);
        }
        return (looked, off);
    }

    // The database checks row by row, and visits of a day all move the same way: one may need the place of the next, which moves after it.
    private static async Task<IReadOnlyList<Left>> ChangeAsync(PortalDb db, int agency, List<Stored> off, CancellationToken stop)
    {
        for (var waiting = off; ;)
        {
            var (still, left) = (new List<Stored>(), new List<Left>());
            foreach (var visit in waiting)
            {
                if (await TryAsync(db, agency, visit, stop) is not { } why)
                    continue;
                still.Add(visit);
                left.Add(new(visit.Id, visit.OnDay, visit.Start, why));
            }
            if (still.Count == 0 || still.Count == waiting.Count)
                return left;
            waiting = still;
        }
    }

    /// <summary>Null where it was put right; otherwise what the database says against it.</summary>
    private static async Task<string?> TryAsync(PortalDb db, int agency, Stored visit, CancellationToken stop)
    {
        const string point = "visit";
        var transaction = db.Database.CurrentTransaction!;
        await transaction.CreateSavepointAsync(point, stop);
        try
        {
            var (from, to) = visit.Span;
            await db.Database.ExecuteSqlAsync($"update portal.visits set during = tstzrange({from}, {to}) where agency_id = {agency} and id = {visit.Id}", stop);
            await transaction.ReleaseSavepointAsync(point, stop);
            return null;
        }
        catch (PostgresException refused) when (Refusals.Of(refused) is { } problem)
        {
            await transaction.RollbackToSavepointAsync(point, stop);
            return problem.Message;
        }
    }
}
