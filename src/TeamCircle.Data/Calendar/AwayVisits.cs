using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>What a time away does to the learner's visits.</summary>
/// <param name="CalledOff">How many visits it calls off.</param>
/// <param name="Back">How many came back.</param>
/// <param name="Lost">Visits that could not come back: their time was given to somebody else.</param>
public sealed record AwayEffect(int CalledOff, int Back, IReadOnlyList<KeptVisit> Lost);

internal static class AwayVisits
{
    /// <summary>Calls off what lies in it, and brings back what it held before and holds no longer. Visits of adults' time go on.</summary>
    public static async Task<AwayEffect> ApplyAsync(PortalDb db, AwayRow away, LocalDate today, CancellationToken stop)
    {
        await LockAsync(db, away, today, stop);
        await db.SaveChangesAsync(stop);
        var held = away.Live ? await HeldAsync(db, away, stop) : [];
        foreach (var visit in held)
            (visit.State, visit.CalledOff, visit.AwayId, visit.Sequence) = (VisitState.CalledOff, CalendarRules.ReasonOf(away.Reason), away.Id, visit.Sequence + 1);
        var (back, lost) = await BringBackAsync(db, away, stop);
        return new(held.Count, back, lost);
    }

    // So that nobody schedules a visit into these days meanwhile. Days further on than visits are written need no lock.
    private static Task LockAsync(PortalDb db, AwayRow away, LocalDate today, CancellationToken stop)
    {
        var last = today.PlusDays(CalendarRules.MostDaysAhead);
        var (from, to) = (LocalDate.Max(away.FromDay, today), LocalDate.Min(away.UntilDay ?? last, last));
        return from > to ? Task.CompletedTask : DayLock.TakeAsync(
            db, away.AgencyId, Enumerable.Range(0, Period.DaysBetween(from, to) + 1).Select(from.PlusDays), [], [away.LearnerId], stop);
    }

    private static Task<List<VisitRow>> HeldAsync(PortalDb db, AwayRow away, CancellationToken stop) =>
        db.Visits.Where(v => v.AgencyId == away.AgencyId && v.LearnerId == away.LearnerId && v.Live && v.LearnersTime && v.State == VisitState.Planned
            && v.OnDay >= away.FromDay && (away.UntilDay == null || v.OnDay <= away.UntilDay)).ToListAsync(stop);

    private static async Task<(int Back, IReadOnlyList<KeptVisit> Lost)> BringBackAsync(PortalDb db, AwayRow away, CancellationToken stop)
    {
        var released = await db.Visits.Where(v => v.AgencyId == away.AgencyId && v.AwayId == away.Id && v.Live && v.State == VisitState.CalledOff
            && (!away.Live || v.OnDay < away.FromDay || (away.UntilDay != null && v.OnDay > away.UntilDay))).OrderBy(v => v.OnDay).ToListAsync(stop);
        var lost = await CalledOffVisits.BringBackAsync(db, released, stop);
        return (released.Count - lost.Count, lost);
    }
}
