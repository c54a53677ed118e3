using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Moves;

/// <summary>What becomes of the visits to come of somebody who leaves, with one learner.</summary>
/// <remarks>
/// With a successor, series go on as theirs from the first occurrence on or after their first day, and visits on their own change hands. What something
/// stands against at its time stays where it is, and on the list. Without one, series end with the last day, as if nobody had planned them further, and visits on their own are
/// called off because nobody is assigned.
/// </remarks>
internal sealed class HandOverVisits(PortalDb db, LearnerHandOverRow over, LocalDate today)
{
    private int _moved, _left;

    public async Task<(int Moved, int Left)> RunAsync(CancellationToken stop)
    {
        var series = await db.Series.Where(s => s.AgencyId == over.AgencyId && s.LearnerId == over.LearnerId && s.ProviderId == over.PersonId && s.Live
            && (s.EndsOn == null || s.EndsOn > over.LastDay)).OrderBy(s => s.Id).ToListAsync(stop);
        foreach (var one in series)
            await SeriesAsync(one, stop);
        var visits = await db.Visits.Where(v => v.AgencyId == over.AgencyId && v.LearnerId == over.LearnerId && v.ProviderId == over.PersonId && v.Live
            && v.State == VisitState.Planned && v.OnDay > over.LastDay).OrderBy(v => v.OnDay).ThenBy(v => v.Id).ToListAsync(stop);
        foreach (var visit in visits)
            await VisitAsync(visit, stop);
        await PartnersAsync(stop);
        return (_moved, _left);
    }

    private async Task SeriesAsync(SeriesRow series, CancellationToken stop)
    {
        var from = over.ToPersonId is null ? over.LastDay.PlusDays(1) : over.FromDay;
        var midnight = from.AtMidnight();
        // A rule that counts every other week goes on counting from one of its own days.
        var occurrence = await db.Visits.Where(v => v.AgencyId == series.AgencyId && v.LearnerId == series.LearnerId && v.SeriesId == series.Id && v.OriginalStart >= midnight)
            .MinAsync(v => v.OriginalStart, stop);
        var planned = await db.Visits.Where(v => v.AgencyId == series.AgencyId && v.LearnerId == series.LearnerId && v.SeriesId == series.Id && v.Live && !v.Touched
            && v.State == VisitState.Planned && v.OriginalStart >= midnight).ToListAsync(stop);
        if (over.ToPersonId is not { } to || occurrence is not { } first)
        {
            await FollowingVisits.EndAsync(db, series, LocalDate.Max(from, series.FirstDay), Guid.Empty, stop);
            _moved += planned.Count;
            return;
        }
        var (rule, endsOn) = (series.Rule, series.EndsOn);
        var spec = (await VisitSpec.OfAsync(db, series, stop)) with { Provider = to, Partner = series.PartnerId == to ? null : series.PartnerId };
        var saved = await FollowingVisits.ReplaceAsync(db, series, spec, new(first.Date, Guid.Empty, rule, endsOn), today, new(LeaveOut: true, Confirmed: true), stop);
        series.EndsOn = LocalDate.Min(series.EndsOn!.Value, over.LastDay); // not the day before the next occurrence: it is nobody's after the last day
        // Refused: no occurrence is left that could be planned; the series has ended all the same.
        _moved += saved.Value?.Written ?? 0;
        // What the successor's series leaves out would vanish: it stays planned, as visits of their own, until somebody decides it.
        foreach (var visit in planned.Where(v => saved.Value?.LeftOut.Contains(v.OnDay) == true))
            (visit.Live, visit.Touched, visit.Sequence) = (true, true, visit.Sequence + 1);
        await db.SaveChangesAsync(stop);
    }

    private async Task VisitAsync(VisitRow visit, CancellationToken stop)
    {
        if (over.ToPersonId is not { } to)
        {
            visit.CallOff(Reason.NobodyAssigned);
            _moved++;
            return;
        }
        var spec = (await VisitSpec.OfAsync(db, visit, stop)) with { Provider = to, Partner = visit.PartnerId == to ? null : visit.PartnerId };
        if (visit.OnDay < over.FromDay || (await PlannedVisit.MoveAsync(db, visit, spec, visit.OnDay, confirmed: true, stop)).Count > 0)
        {
            _left++;
            return;
        }
        visit.PartnerId = spec.Partner;
        _moved++;
        await db.SaveChangesAsync(stop); // the next one is looked at beside it
    }

    /// <summary>Where they were to treat together with a colleague, the successor does; without one the colleague treats alone.</summary>
    private async Task PartnersAsync(CancellationToken stop)
    {
        foreach (var visit in await db.Visits.Where(v => v.AgencyId == over.AgencyId && v.LearnerId == over.LearnerId && v.PartnerId == over.PersonId && v.Live
            && v.State == VisitState.Planned && v.OnDay > over.LastDay).ToListAsync(stop))
            visit.PartnerId = over.ToPersonId == visit.ProviderId ? null : over.ToPersonId;
        foreach (var series in await db.Series.Where(s => s.AgencyId == over.AgencyId && s.LearnerId == over.LearnerId && s.PartnerId == over.PersonId && s.Live
            && (s.EndsOn == null || s.EndsOn > over.LastDay)).ToListAsync(stop))
            series.PartnerId = over.ToPersonId == series.ProviderId ? null : over.ToPersonId;
    }
}
