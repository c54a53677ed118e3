using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Calendar;

/// <summary>What "this and all that follow" does to a series: it ends the day before, and another one begins.</summary>
internal static class FollowingVisits
{
    /// <summary>
    /// Ends the series before a day. Visits from then on that nobody touched or logged give way; the others are kept and listed.
    /// Saves, so that the times which become free can be taken.
    /// </summary>
    /// <param name="chosen">The visit from which somebody does so: it gives way also where it was touched.</param>
    public static async Task<IReadOnlyList<KeptVisit>> EndAsync(PortalDb db, SeriesRow series, LocalDate from, Guid chosen, CancellationToken stop)
    {
        var begin = from.AtMidnight();
        var visits = await db.Visits.Where(v => v.AgencyId == series.AgencyId && v.LearnerId == series.LearnerId && v.SeriesId == series.Id
            && v.Live && v.OriginalStart >= begin).OrderBy(v => v.OnDay).ToListAsync(stop);
        // Called off by a time away is nobody's own change: the series that follows is called off by it again.
        var untouched = visits.Where(v => (!v.Touched || v.Id == chosen) && (v.State == VisitState.Planned || v.AwayId is not null)).ToList();
        foreach (var visit in untouched)
            (visit.Live, visit.Sequence) = (false, visit.Sequence + 1);
        series.EndsOn = from.PlusDays(-1);
        series.Live = series.EndsOn >= series.FirstDay || visits.Count > untouched.Count;
        await db.SaveChangesAsync(stop);
        return [.. visits.Except(untouched).Select(v => new KeptVisit(v.Id, v.OnDay, v.State))];
    }

    /// <summary>Ends the series before a day and begins another by the spec.</summary>
    public static async Task<Outcome<SeriesSaved>> ReplaceAsync(
        PortalDb db, SeriesRow series, VisitSpec spec, SeriesStart start, LocalDate today, SeriesChoice choice, CancellationToken stop)
    {
        var kept = await EndAsync(db, series, start.From, start.Chosen, stop);
        var next = SeriesWriter.Row(spec, start.Rule, start.From, start.EndsOn);
        next.ContinuesId = series.Id;
        return await SeriesWriter.AddAsync(db, spec, next, today, choice, kept, stop);
    }
}

/// <summary>From when, by which rule and until when a series goes on, and the visit from which somebody says so.</summary>
internal readonly record struct SeriesStart(LocalDate From, Guid Chosen, string Rule, LocalDate? EndsOn);
