using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Takes back the last change of a visit with all that the same act changed, while nothing of it was logged or changed again.</summary>
public sealed class UndoChange(Portal portal)
{
    public sealed record Input
    {
        public Guid Visit { get; init; }

        /// <summary>The act that the page showed: another one, saved meanwhile, is not taken back unseen.</summary>
        public Guid Act { get; init; }
    }

    /// <param name="IsGone">Whether the visit itself was new: then it is no visit any more.</param>
    public sealed record Saved(Guid Visit, bool IsGone);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(UndoChange), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var visit = await db.Visits.AsNoTracking().SingleOrDefaultAsync(v => v.AgencyId == caller.AgencyId && v.Id == input.Visit, stop);
        var change = visit is null ? null : await LastChange.FindAsync(db, caller.AgencyId, input.Visit, stop);
        if (visit is null || !MayUndo(caller, visit, change))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (change is null || change.Operation != input.Act)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        await TakeBackAsync(db, caller.AgencyId, change, stop);
        return Outcome<Saved>.Of(new(visit.Id, change.Added("visits").Contains(visit.Id.ToString())));
    }

    // Whoever handed a visit over may still take that back, though it is no longer theirs.
    internal static bool MayUndo(Caller caller, VisitRow visit, LastChange? change) =>
        CalendarRules.MayPlan(caller, visit.LearnerId, visit.ProviderId) || (change?.Person == caller.PersonId && CalendarRules.MayPlan(caller, visit.LearnerId, caller.PersonId));

    internal static async Task TakeBackAsync(PortalDb db, int agency, LastChange change, CancellationToken stop)
    {
        await EndAddedAsync(db, agency, change, stop);
        await RestoreAsync(db, agency, change, stop);
    }

    /// <summary>New rows end first, so that the times which the old ones need are free.</summary>
    private static async Task EndAddedAsync(PortalDb db, int agency, LastChange change, CancellationToken stop)
    {
        var (visits, series) = (change.Added("visits").Select(Guid.Parse).ToArray(), change.Added("series").Select(int.Parse).ToArray());
        await db.Database.ExecuteSqlAsync(
            $"update portal.visits set live = false, sequence = sequence + 1 where agency_id = {agency} and id = any ({visits}) and live", stop);
        await db.Database.ExecuteSqlAsync($"update portal.series set live = false where agency_id = {agency} and id = any ({series})", stop);
    }

    private static async Task RestoreAsync(PortalDb db, int agency, LastChange change, CancellationToken stop)
    {
        var (visits, series) = (change.Before("visits"), change.Before("series"));
        await db.Database.ExecuteSqlAsync(
            $"""
            update portal.series s set ends_on = b.ends_on, live = b.live, written_to = b.written_to
            from jsonb_populate_recordset(null::portal.series, {series}::jsonb) b where s.agency_id = {agency} and b.agency_id = {agency} and s.id = b.id
            """, stop);
        await db.Database.ExecuteSqlAsync(
            $"""
            update portal.visits v set provider_id = b.provider_id, partner_id = b.partner_id, on_day = b.on_day, start_time = b.start_time,
                minutes = b.minutes, during = b.during, state = b.state, called_off = b.called_off, away_id = b.away_id, on_closed_day = coalesce(b.on_closed_day, false), live = b.live,
                group_no = b.group_no, together_no = b.together_no, place = b.place, place_id = b.place_id, format = b.format,
                expected_start = b.expected_start, touched = b.touched, sequence = v.sequence + 1
            from jsonb_populate_recordset(null::portal.visits, {visits}::jsonb) b where v.agency_id = {agency} and b.agency_id = {agency} and v.id = b.id
            """, stop);
    }
}
