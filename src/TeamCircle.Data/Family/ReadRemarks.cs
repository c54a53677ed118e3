using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Family;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Family;

/// <param name="Remarks">Unanswered ones first, then the newest.</param>
/// <param name="Visits">Those of the last weeks, the latest first: what a remark may be about.</param>
/// <param name="FamilyTells">Whether families may tell the team on their page.</param>
public sealed record RemarksPage(int LearnerId, string Learner, IReadOnlyList<RemarkShown> Remarks, IReadOnlyList<RemarkVisit> Visits, bool FamilyTells);

/// <param name="EnteredBy">Whoever took it down; null where the family typed it itself.</param>
/// <param name="MayAnswer">Whether the reader answers it.</param>
public sealed record RemarkShown(
    int Id, RemarkKind Kind, string Words, string SaidBy, LocalDate SaidOn, string? EnteredBy, RemarkVisit? Visit, string? Answer, string? AnsweredBy,
    LocalDateTime? AnsweredAt, bool MayAnswer, int Version);

/// <param name="Discipline">Null for a visit that is for no service.</param>
public sealed record RemarkVisit(Guid Id, LocalDate On, LocalTime Start, Discipline? Discipline, string Provider, int ProviderId);

/// <summary>A remark that waits for a person.</summary>
public sealed record RemarkWaits(int LearnerId, RemarkKind Kind, LocalDate SaidOn, string SaidBy);

/// <summary>Reads what a family said, and what came of it.</summary>
public sealed class ReadRemarks(Portal portal)
{
    /// <summary>Visits of so many days back can be named.</summary>
    public const int DaysBack = 60;

    /// <summary>Null where the scope reaches no such learner. A family reads what it typed itself.</summary>
    public Task<RemarksPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == caller.AgencyId && l.Id == learner, stop) is not { } row)
            return null;
        var agency = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        var zone = DateTimeZoneProviders.Tzdb[agency.TimeZone];
        var rows = await db.FamilyRemarks.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner).ToListAsync(stop);
        var (named, since) = (rows.Select(r => r.VisitId).OfType<Guid>().ToList(), caller.Today.PlusDays(-DaysBack));
        var visits = await VisitsAsync(db.Visits.Where(v => v.AgencyId == caller.AgencyId && v.LearnerId == learner
            && (named.Contains(v.Id) || (v.Live && v.OnDay >= since && v.OnDay <= caller.Today))), db, stop);
        var people = rows.SelectMany(r => new[] { r.EnteredBy, r.AnsweredBy }).OfType<int>().ToHashSet();
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId && people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        RemarkShown Shown(FamilyRemarkRow r)
        {
            var visit = visits.Find(v => v.Id == r.VisitId);
            return new(
                r.Id, r.Kind, r.Words, r.SaidBy, r.SaidOn, r.ByFamily ? null : names.GetValueOrDefault(r.EnteredBy), visit, r.Answer,
                r.AnsweredBy is { } by ? names.GetValueOrDefault(by) : null, r.AnsweredAt?.InZone(zone).LocalDateTime,
                RemarkRules.MayAnswer(caller, learner, visit?.ProviderId), r.Version);
        }
        return new RemarksPage(
            learner, row.Name, [.. rows.OrderBy(r => r.Answer is not null).ThenByDescending(r => r.SaidOn).ThenByDescending(r => r.Id).Select(Shown)],
            [.. visits.Where(v => v.On >= since && v.On <= caller.Today)], agency.FamilyTells);
    }, stop);

    /// <summary>Whether families of an agency may tell the team on their page.</summary>
    public Task<bool> FamilyTellsAsync(Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => db.Agencies.AnyAsync(a => a.Id == scope.AgencyId && a.FamilyTells, stop), stop);

    /// <summary>Unanswered remarks for a case manager, and for the provider of the visit that they are about; the oldest first.</summary>
    internal static async Task<IReadOnlyList<RemarkWaits>> WaitingAsync(PortalDb db, Together all, Caller caller)
    {
        var (team, managed) = (caller.Learners.Where(caller.OnTeam).ToList(), caller.Learners.Where(caller.Manages).ToList());
        return await all.ListAsync(db.FamilyRemarks
            .Where(r => r.AgencyId == caller.AgencyId && r.Answer == null && team.Contains(r.LearnerId)
                && (managed.Contains(r.LearnerId)
                    || db.Visits.Any(v => v.AgencyId == r.AgencyId && v.LearnerId == r.LearnerId && v.Id == r.VisitId && v.ProviderId == caller.PersonId)))
            .OrderBy(r => r.SaidOn).ThenBy(r => r.Id).Select(r => new RemarkWaits(r.LearnerId, r.Kind, r.SaidOn, r.SaidBy)));
    }

    private static Task<List<RemarkVisit>> VisitsAsync(IQueryable<VisitRow> visits, PortalDb db, CancellationToken stop) => (
        from v in visits
        from s in db.Services.IgnoreQueryFilters().Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
        join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
        orderby v.OnDay descending, v.StartTime descending
        select new RemarkVisit(v.Id, v.OnDay, v.StartTime, s == null ? null : s.Discipline, p.Name, p.Id)).ToListAsync(stop);
}
