using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Calendar;

/// <summary>A visit that somebody means to change, locked.</summary>
internal static class PlannedVisit
{
    /// <summary>The visit, or why it can't be changed: it is none of the caller's, was logged or called off, or changed meanwhile.</summary>
    public static async Task<Outcome<VisitRow>> LockAsync(PortalDb db, Caller caller, Guid id, int version, CancellationToken stop)
    {
        var visit = (await LoggedVisit.LockAsync(db, caller.AgencyId, [id], stop)).SingleOrDefault();
        if (visit is not { Live: true } || !CalendarRules.MayPlan(caller, visit.LearnerId, visit.ProviderId))
            return Outcome<VisitRow>.Refused(Problem.NotFound);
        if (visit.State == VisitState.Logged)
            return Outcome<VisitRow>.Refused(Refusals.LoggedMeanwhile);
        if (visit.Version != version)
            return Outcome<VisitRow>.Refused(Refusals.ChangedMeanwhile);
        return visit.State == VisitState.CalledOff
            ? Outcome<VisitRow>.Refused("", "This visit is called off. Take that back first.")
            : Outcome<VisitRow>.Of(visit);
    }

    /// <summary>The series of a visit, locked by its row; null where it is a visit on its own.</summary>
    public static Task<SeriesRow?> SeriesAsync(PortalDb db, VisitRow visit, CancellationToken stop) =>
        db.Locked<SeriesRow>($"agency_id = {visit.AgencyId} and id = {visit.SeriesId} and live").SingleOrDefaultAsync(stop);

    /// <summary>Moves a visit, on its own, to a spec on a day; or says what stands against it.</summary>
    public static async Task<IReadOnlyList<Problem>> MoveAsync(
        PortalDb db, VisitRow visit, VisitSpec spec, LocalDate day, bool confirmed, CancellationToken stop)
    {
        await DayLock.TakeAsync(db, spec.Agency, day, [spec.Provider], [spec.Learner.Id], stop);
        var book = await DayBook.ReadAsync(db, spec, day, day, [visit.Id], stop);
        if (ClashProblems.Of(book.Clashes(day), confirmed) is { Count: > 0 } clashes)
            return clashes;
        spec.Fill(visit, day);
        visit.OnClosedDay = !book.IsSchoolDay(day);
        // What it shared its time with stays where it was: at another time it is a visit of its own again.
        (visit.GroupNo, visit.TogetherNo) = (await Recording.NextNumberAsync(db, stop), await Recording.NextNumberAsync(db, stop));
        book.Join(visit);
        visit.Sequence++;
        visit.Touched = visit.SeriesId is not null;
        visit.ExpectedStart = null;
        return [];
    }
}
