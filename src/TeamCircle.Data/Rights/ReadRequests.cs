using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Rights;

/// <param name="Requests">Open ones first, by their outer date; then the latest.</param>
public sealed record RequestsPage(int LearnerId, string Learner, IReadOnlyList<RecordRequest> Requests);

/// <summary>One request, as it stands.</summary>
/// <param name="DueOn">The outer date.</param>
/// <param name="IsNear">Unanswered, and its outer date is near or past.</param>
public sealed record RecordRequest(
    int Id, RequestKind Kind, LocalDate ReceivedOn, LocalDate DueOn, string AskedBy, string Words, string EnteredBy, RequestAnswer? Answer, LocalDate? AnsweredOn,
    string? AnsweredBy, string? AnswerWords, LocalDate? NoticeOn, LocalDate? HearingAskedOn, LocalDate? HearingEndedOn, string? HearingOutcome, bool IsNear, int Version);

/// <summary>One request with its statements.</summary>
/// <param name="Places">What a statement may stand beside, with its words.</param>
public sealed record RequestPage(int LearnerId, string Learner, RecordRequest Request, IReadOnlyList<StatementShown> Statements, IReadOnlyList<PlaceShown> Places);

/// <param name="On">The day of the entry, or the first of a report; null for the record as a whole.</param>
/// <param name="About">Whose visit, which goal, which reporting period; empty for the record as a whole.</param>
public sealed record PlaceShown(StatementPlace Place, LocalDate? On, string About);

/// <summary>A request that waits for its answer.</summary>
public sealed record RequestWaits(int Id, int LearnerId, RequestKind Kind, LocalDate DueOn);

/// <summary>Reads what parents asked about a record.</summary>
public sealed class ReadRequests(Portal portal)
{
    /// <summary>Entries of so many days back can be named by a statement.</summary>
    private const int DaysBack = 400;

    /// <summary>Null for whoever does not keep the learner's requests.</summary>
    public async Task<RequestsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        RequestRules.MayKeep(caller, learner) ? await portal.ReadAsync(scope, async db =>
        {
            var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleAsync(stop);
            var rows = await db.RecordRequests.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner).ToListAsync(stop);
            var names = await NamesAsync(db, caller.AgencyId, stop);
            return new RequestsPage(learner, name, [
                .. rows.Where(r => r.Answer is null).OrderBy(r => r.ReceivedOn).ThenBy(r => r.Id).Select(r => Shown(r, names, caller)),
                .. rows.Where(r => r.Answer is not null).OrderByDescending(r => r.ReceivedOn).ThenByDescending(r => r.Id).Select(r => Shown(r, names, caller))]);
        }, stop) : null;

    /// <summary>Null where there is no such request of that learner, or for whoever does not keep them.</summary>
    public Task<RequestPage?> OneAsync(Caller caller, Scope scope, int learner, int request, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await FindAsync(db, caller, learner, request, stop) is not { } row)
            return null;
        var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleAsync(stop);
        var statements = await ReadStatements.AllAsync(db, caller.AgencyId, learner, stop);
        return new RequestPage(
            learner, name, Shown(row, await NamesAsync(db, caller.AgencyId, stop), caller), [.. statements.Where(s => s.Request == request)],
            row.Kind == RequestKind.Amend ? await PlacesAsync(db, caller, learner, stop) : []);
    }, stop);

    /// <summary>For whoever keeps the learner's requests; null otherwise.</summary>
    internal static async Task<RecordRequestRow?> FindAsync(PortalDb db, Caller caller, int learner, int request, CancellationToken stop) =>
        RequestRules.MayKeep(caller, learner)
            ? await db.RecordRequests.SingleOrDefaultAsync(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Id == request, stop) : null;

    /// <summary>Unanswered requests about the learners of a case manager, by their outer date.</summary>
    internal static async Task<IReadOnlyList<RequestWaits>> WaitingAsync(PortalDb db, Together all, Caller caller)
    {
        var managed = caller.Learners.Where(caller.Manages).ToList();
        return managed.Count == 0 ? [] : [.. (await all.ListAsync(db.RecordRequests.Where(r => r.AgencyId == caller.AgencyId && r.Answer == null && managed.Contains(r.LearnerId))
            .OrderBy(r => r.ReceivedOn).ThenBy(r => r.Id))).Select(r => new RequestWaits(r.Id, r.LearnerId, r.Kind, RequestRules.OuterDate(r.ReceivedOn)))];
    }

    private static RecordRequest Shown(RecordRequestRow r, Dictionary<int, string> names, Caller caller) => new(
        r.Id, r.Kind, r.ReceivedOn, RequestRules.OuterDate(r.ReceivedOn), r.AskedBy, r.Words, names.GetValueOrDefault(r.EnteredBy, "somebody"), r.Answer, r.AnsweredOn,
        r.AnsweredBy is { } by ? names.GetValueOrDefault(by) : null, r.AnswerWords, r.NoticeOn, r.HearingAskedOn, r.HearingEndedOn, r.HearingOutcome,
        r.Answer is null && RequestRules.IsNear(r.ReceivedOn, caller.Today), r.Version);

    private static async Task<IReadOnlyList<PlaceShown>> PlacesAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var (agency, since) = (caller.AgencyId, caller.Today.PlusDays(-DaysBack));
        var reports = await (
            from r in db.Reports
            join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && r.LearnerId == learner
            orderby p.StartDay descending
            select new { r.Id, p.StartDay, p.Name }).ToListAsync(stop);
        var visits = await (
            from v in db.Visits
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            where v.AgencyId == agency && v.LearnerId == learner && v.OnDay >= since && v.OnDay <= caller.Today
                && db.Sessions.Any(s => s.AgencyId == v.AgencyId && s.VisitId == v.Id && s.Live && s.Outcome != VisitOutcome.Planned)
            orderby v.OnDay descending, v.StartTime descending
            select new { v.Id, v.OnDay, p.Name }).ToListAsync(stop);
        var probes = await (
            from p in db.Probes
            join g in db.Goals.IgnoreQueryFilters() on new { p.AgencyId, p.LearnerId, Id = p.GoalId } equals new { g.AgencyId, g.LearnerId, g.Id }
            where p.AgencyId == agency && p.LearnerId == learner && p.Live && p.OnDay >= since
            orderby p.OnDay descending, p.Id descending
            select new { p.Id, p.OnDay, g.Area }).ToListAsync(stop);
        return [
            new(new(StatementAbout.Record), null, ""),
            .. reports.Select(r => new PlaceShown(new(StatementAbout.Report, Report: r.Id), r.StartDay, r.Name)),
            .. visits.Select(v => new PlaceShown(new(StatementAbout.Visit, Visit: v.Id), v.OnDay, v.Name)),
            .. probes.Select(p => new PlaceShown(new(StatementAbout.Probe, Probe: p.Id), p.OnDay, p.Area))];
    }

    private static Task<Dictionary<int, string>> NamesAsync(PortalDb db, int agency, CancellationToken stop) =>
        db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
}
