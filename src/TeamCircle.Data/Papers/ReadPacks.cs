using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Names;

namespace TeamCircle.Data.Papers;

/// <param name="Meetings">The latest first, those called off too.</param>
public sealed record PacksPage(int LearnerId, string Learner, IReadOnlyList<MeetingListed> Meetings, bool MayKeep);

/// <param name="CalledOff">Why it does not take place, or on another day; null where it stands.</param>
/// <param name="SentOn">When its pack reached the family; null where it has not.</param>
public sealed record MeetingListed(int Id, LocalDate OnDay, string About, LocalDate FamilyBy, LocalDate? SentOn, string? CalledOff);

/// <summary>A meeting's pack as it was made.</summary>
/// <param name="Learner">The legal name: of the day on which the pack first went out; today's while it has not.</param>
public sealed record PackPage(
    int Id, int LearnerId, string Learner, string Agency, LocalDate OnDay, string About, LocalDate FamilyBy, PackContent Content, string MadeBy, int Version, bool HasGoneOut,
    string? CalledOff, bool MayKeep);

/// <summary>Reads meetings and their packs.</summary>
public sealed class ReadPacks(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<PacksPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var meetings = await db.Meetings.IgnoreQueryFilters().Where(m => m.AgencyId == scope.AgencyId && m.LearnerId == learner)
            .OrderByDescending(m => m.OnDay).ThenByDescending(m => m.Id)
            .Select(m => new MeetingListed(
                m.Id, m.OnDay, m.About, m.FamilyBy,
                db.Deliveries.Where(d => d.AgencyId == m.AgencyId && d.LearnerId == m.LearnerId && d.MeetingId == m.Id && d.ReturnedOn == null).Min(d => (LocalDate?)d.SentOn),
                m.TakenBackReason)).ToListAsync(stop);
        return new PacksPage(learner, name, meetings, BoundDates.MayKeep(caller, learner));
    }, stop);

    /// <summary>Null where the learner has no such meeting in reach.</summary>
    public Task<PackPage?> OneAsync(Caller caller, Scope scope, int learner, int meeting, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var found = await (
            from m in db.Meetings.IgnoreQueryFilters()
            join a in db.Agencies on m.AgencyId equals a.Id
            where m.AgencyId == scope.AgencyId && m.LearnerId == learner && m.Id == meeting
            select new
            {
                Row = m,
                Agency = a.Name,
                By = db.People.Where(p => p.AgencyId == m.AgencyId && p.Id == m.MadeBy).Select(p => p.Name).FirstOrDefault(),
                SentOn = db.Deliveries.Where(d => d.AgencyId == m.AgencyId && d.LearnerId == m.LearnerId && d.MeetingId == m.Id).Min(d => (LocalDate?)d.SentOn),
            }).SingleOrDefaultAsync(stop);
        return found is null ? null : new PackPage(
            meeting, learner, await ReadNames.OnAsync(db, learner, found.SentOn ?? caller.Today, stop), found.Agency, found.Row.OnDay, found.Row.About, found.Row.FamilyBy, PackContent.Read(found.Row.Content), found.By ?? "a colleague",
            found.Row.Version, found.SentOn is not null, found.Row.TakenBackReason, BoundDates.MayKeep(caller, learner));
    }, stop);
}
