using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Closing;

/// <summary>A count of a period that is over and that nobody has closed.</summary>
public sealed record OpenCount(int LearnerId, int PeriodId, string Period, LocalDate EndDay);

/// <summary>A request to open a closed count again that waits for a director. Names the learner by code: no relation opens the name to a director.</summary>
public sealed record ReopeningWaits(int LearnerId, string Code, int PeriodId, string Period, string AskedBy);

/// <summary>One period in the list of a learner's counts.</summary>
/// <param name="Edition">Of the last statement; 0 where it was never closed.</param>
/// <param name="ClosedOn">In the agency's zone; null while it is open.</param>
public sealed record CountListed(int Id, string Name, LocalDate From, LocalDate To, int Edition, LocalDate? ClosedOn, bool IsOver)
{
    public bool IsOpenAndOver => IsOver && ClosedOn is null;
}

/// <summary>A learner's counts, the latest period first.</summary>
/// <param name="Manages">Whether the reader is the learner's case manager.</param>
public sealed record CountList(int LearnerId, string Learner, IReadOnlyList<CountListed> Periods, bool Manages);

/// <summary>Reads a learner's counts, and what of closing waits for whom.</summary>
public sealed class ReadOpenCounts(Portal portal)
{
    /// <summary>The counts of periods that have begun. Null where the scope reaches no such learner.</summary>
    public Task<CountList?> OfLearnerAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var periods = await db.Periods.Where(p => p.AgencyId == caller.AgencyId && p.StartDay <= caller.Today).OrderByDescending(p => p.StartDay)
            .Select(p => new
            {
                p.Id,
                p.Name,
                p.StartDay,
                p.EndDay,
                Edition = db.Statements.Where(s => s.AgencyId == p.AgencyId && s.LearnerId == learner && s.PeriodId == p.Id).Max(s => (int?)s.Edition),
                ClosedAt = db.LearnerPeriods.Where(l => l.AgencyId == p.AgencyId && l.LearnerId == learner && l.PeriodId == p.Id).Select(l => l.ClosedAt).FirstOrDefault(),
            }).ToListAsync(stop);
        return new CountList(learner, name, [.. periods.Select(p => new CountListed(
            p.Id, p.Name, p.StartDay, p.EndDay, p.Edition ?? 0, p.ClosedAt?.InZone(zone).Date, p.EndDay < caller.Today))], caller.Manages(learner));
    }, stop);

    /// <summary>For a case manager: the oldest period of each of their learners that is over and not closed, of periods in which the learner had a plan.</summary>
    internal static async Task<IReadOnlyList<OpenCount>> ToCloseAsync(PortalDb db, Together all, Caller caller)
    {
        int[] managed = [.. caller.Learners.Where(caller.Manages)];
        if (managed.Length == 0)
            return [];
        var open = await all.ListAsync(
            from l in db.LearnerPeriods
            join p in db.Periods on new { l.AgencyId, Id = l.PeriodId } equals new { p.AgencyId, p.Id }
            where l.AgencyId == caller.AgencyId && managed.Contains(l.LearnerId) && l.ClosedAt == null && p.EndDay < caller.Today
                && db.Plans.Any(n => n.AgencyId == l.AgencyId && n.LearnerId == l.LearnerId && n.StartDay <= p.EndDay && n.EndDay >= p.StartDay)
            orderby p.EndDay, l.LearnerId
            select new OpenCount(l.LearnerId, p.Id, p.Name, p.EndDay));
        return [.. open.DistinctBy(c => c.LearnerId)];
    }

    /// <summary>For a director: requests of others.</summary>
    internal static async Task<IReadOnlyList<ReopeningWaits>> ToAnswerAsync(PortalDb db, Caller caller, CancellationToken stop) => await (
        from r in db.Reopenings
        join l in db.Learners on new { r.AgencyId, Id = r.LearnerId } equals new { l.AgencyId, l.Id }
        join p in db.Periods on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
        join a in db.People on new { r.AgencyId, Id = r.AskedBy } equals new { a.AgencyId, a.Id }
        where r.AgencyId == caller.AgencyId && r.AnsweredAt == null && r.AskedBy != caller.PersonId
        orderby r.AskedAt
        select new ReopeningWaits(r.LearnerId, l.Code, p.Id, p.Name, a.Name)).ToListAsync(stop);
}
