using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// Writes series on, as far as plans go, and writes the visits of days whose closure was taken back. A day against which something
/// stands is left out and looked at again the next time.
/// </summary>
public sealed class TopUpSeries(Portal portal, TimeProvider clock)
{
    private const string Ground = "series written on";

    public sealed record Saved(int Written);

    /// <returns>How many visits were written.</returns>
    public async Task<int> RunAsync(int agency, CancellationToken stop = default)
    {
        var (today, terminal, series) = await portal.ReadAsync(Scope.Job(agency, 0, Ground), async db =>
        {
            var zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop);
            var day = AgencyClock.Today(clock, zone);
            return (day, await db.PersonRoles.Where(r => r.AgencyId == agency && r.Role == Role.Terminal).Select(r => r.PersonId).FirstAsync(stop),
                await db.Series.Where(s => s.AgencyId == agency && s.Live && (s.EndsOn == null || s.EndsOn >= day)).Select(s => s.Id).ToListAsync(stop));
        }, stop);
        var written = 0;
        foreach (var id in series)
        {
            var outcome = await portal.WriteAsync(Scope.Job(agency, terminal, Ground), Operation.Own(nameof(TopUpSeries)), db => WriteAsync(db, agency, id, today, stop), stop);
            written += outcome.Value?.Written ?? 0;
        }
        return written;
    }

    private static async Task<Outcome<Saved>> WriteAsync(PortalDb db, int agency, int id, LocalDate today, CancellationToken stop)
    {
        var series = await db.Locked<SeriesRow>($"agency_id = {agency} and id = {id}").SingleAsync(stop);
        var spec = await VisitSpec.OfAsync(db, series, stop);
        var reach = await SeriesPlan.ReachAsync(db, spec, series.FirstDay, series.EndsOn, today, stop);
        var known = (await db.Visits.Where(v => v.AgencyId == agency && v.SeriesId == id && v.OriginalStart >= today.AtMidnight())
            .Select(v => v.OriginalStart!.Value).ToListAsync(stop)).Select(s => s.Date).ToHashSet();
        List<LocalDate> missing = [.. SeriesPlan.Occurrences(series, today, reach).Where(d => !known.Contains(d))];
        if (missing.Count == 0)
            return Outcome<Saved>.Refused("", "Nothing is missing.");
        await DayLock.TakeAsync(db, agency, missing, [spec.Provider], [spec.Learner.Id], stop);
        var book = await DayBook.ReadAsync(db, spec, missing[0], missing[^1], [], stop);
        var plan = SeriesPlan.Of(missing, book) with { Refused = [] };
        if (plan.Stands.Count + plan.Away.Count == 0 && series.WrittenTo >= reach)
            return Outcome<Saved>.Refused("", "Nothing is missing.");
        SeriesWriter.Write(db, spec, series, plan, book);
        series.WrittenTo = LocalDate.Max(reach, series.WrittenTo);
        return Outcome<Saved>.Of(new(plan.Stands.Count));
    }
}
