using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Calendar;

/// <summary>A visit that a change of its series left as it was.</summary>
public sealed record KeptVisit(Guid Visit, LocalDate OnDay, VisitState State);

/// <summary>What became of a series: a page says it all before the reader goes on.</summary>
/// <param name="First">The first visit; null where there is none yet.</param>
/// <param name="Closed">Days without school, left out.</param>
/// <param name="LeftOut">Days left out because something stands against them.</param>
/// <param name="Away">Days on which the learner is away: the visits are called off.</param>
/// <param name="Kept">Visits of the series before that were changed by themselves, or logged.</param>
public sealed record SeriesSaved(
    int Series, Guid? First, int Written, IReadOnlyList<ClosedDay> Closed, IReadOnlyList<LocalDate> LeftOut, IReadOnlyList<LocalDate> Away,
    IReadOnlyList<KeptVisit> Kept);

/// <summary>Writes a series with its visits.</summary>
internal static class SeriesWriter
{
    /// <param name="kept">Visits of the series that this one continues: no occurrence is written beside them.</param>
    public static async Task<Outcome<SeriesSaved>> AddAsync(
        PortalDb db, VisitSpec spec, SeriesRow series, LocalDate today, SeriesChoice choice, IReadOnlyList<KeptVisit> kept, CancellationToken stop)
    {
        var reach = await SeriesPlan.ReachAsync(db, spec, series.FirstDay, series.EndsOn, today, stop);
        var keptDays = kept.Select(k => k.OnDay).ToHashSet();
        var days = SeriesPlan.Occurrences(series, series.FirstDay, reach).Where(d => !keptDays.Contains(d)).ToList();
        if (days.Count == 0)
            return Outcome<SeriesSaved>.Refused("FirstDay", "No visit would come of this: look at the first day, the weekdays and the end of the service.");
        await DayLock.TakeAsync(db, spec.Agency, days, [spec.Provider], [spec.Learner.Id], stop);
        var book = await DayBook.ReadAsync(db, spec, days[0], days[^1], [], stop);
        var plan = SeriesPlan.Of(days, book);
        if (Problems(plan, choice) is { Count: > 0 } problems)
            return Outcome<SeriesSaved>.Refused(problems);
        series.WrittenTo = reach;
        db.Add(series);
        await db.SaveChangesAsync(stop);
        db.AddRange(spec.Routines.Select(r => new SeriesRoutineRow { AgencyId = spec.Agency, LearnerId = spec.Learner.Id, SeriesId = series.Id, RoutineId = r }));
        var rows = Write(db, spec, series, plan, book);
        return Outcome<SeriesSaved>.Of(new(series.Id, rows.FirstOrDefault(r => r.Live)?.Id, plan.Stands.Count, plan.Closed, [.. plan.LeftOut], plan.Away, kept));
    }

    /// <summary>Adds the visits of a plan, in order of their days.</summary>
    public static IReadOnlyList<VisitRow> Write(PortalDb db, VisitSpec spec, SeriesRow series, SeriesPlan plan, DayBook book)
    {
        List<VisitRow> rows = [.. plan.Stands.Concat(plan.Away).Concat(plan.LeftOut).Order().Select(day => Occurrence(spec, series, day))];
        foreach (var row in rows)
        {
            if (book.AwayOn(row.OnDay) is { } away)
                (row.State, row.CalledOff, row.AwayId) = (VisitState.CalledOff, CalendarRules.ReasonOf(away.Reason), away.Id);
            else if (plan.LeftOut.Contains(row.OnDay))
                row.Live = false;
            else
                book.Join(row);
        }
        db.AddRange(rows);
        db.AddRange(rows.Where(r => r.Live).SelectMany(r => spec.Routines.Select(id =>
            new VisitRoutineRow { AgencyId = spec.Agency, LearnerId = spec.Learner.Id, VisitId = r.Id, RoutineId = id })));
        return rows;
    }

    public static SeriesRow Row(VisitSpec spec, string rule, LocalDate firstDay, LocalDate? endsOn) => new()
    {
        AgencyId = spec.Agency,
        LearnerId = spec.Learner.Id,
        Kind = spec.Kind,
        ServiceId = spec.Service?.Id,
        ProviderId = spec.Provider,
        PartnerId = spec.Partner,
        Rule = rule,
        FirstDay = firstDay,
        EndsOn = endsOn,
        StartTime = spec.Start,
        Minutes = spec.Minutes,
        Zone = spec.Zone,
        Place = spec.Place,
        PlaceId = spec.PlaceId,
        Format = spec.Format,
    };

    private static VisitRow Occurrence(VisitSpec spec, SeriesRow series, LocalDate day)
    {
        var row = spec.Row(day);
        (row.SeriesId, row.OriginalStart) = (series.Id, day + spec.Start);
        return row;
    }

    private static List<Problem> Problems(SeriesPlan plan, SeriesChoice choice) =>
    [
        .. choice.LeaveOut ? [] : ClashProblems.OfDays(plan.Refused, "LeaveOut"),
        .. choice.Confirmed ? [] : ClashProblems.OfDays(plan.ToConfirm, "Confirmed"),
    ];
}

/// <param name="LeaveOut">Days against which something stands are left out.</param>
/// <param name="Confirmed">What can be confirmed is.</param>
internal readonly record struct SeriesChoice(bool LeaveOut, bool Confirmed);
