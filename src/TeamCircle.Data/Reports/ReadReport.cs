using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Names;

namespace TeamCircle.Data.Reports;

/// <summary>Reads one edition of a report.</summary>
public sealed class ReadReport(Portal portal)
{
    /// <summary>Null where the scope reaches no such report.</summary>
    public Task<ReportPage?> RunAsync(Caller caller, Scope scope, int report, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await ReportWork.FindAsync(db, caller, report, stop) is not { } work)
            return null;
        var agency = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        var zone = DateTimeZoneProviders.Tzdb[agency.TimeZone];
        var learner = await ReadNames.OnAsync(db, work.Report.LearnerId, work.Report.FinishedAt?.InZone(zone).Date ?? caller.Today, stop);
        var parts = await db.ReportParts.Where(p => p.AgencyId == caller.AgencyId && p.LearnerId == work.Report.LearnerId && p.ReportId == report).ToListAsync(stop);
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var goals = await GoalNamesAsync(db, work, stop);
        var credential = await db.ReportSignatures.Where(s => s.AgencyId == caller.AgencyId && s.PersonId == caller.PersonId)
            .OrderByDescending(s => s.SignedAt).Select(s => s.Credential).FirstOrDefaultAsync(stop);
        return new Shown(caller, work, names, await SignedAsync(db, caller.AgencyId, report, agency.TimeZone, stop), zone).Page(learner, agency.Name, parts, goals, credential);
    }, stop);

    /// <summary>For the family: null unless it is a shared one of that learner.</summary>
    public Task<FamilyReport?> ForFamilyAsync(Caller caller, Scope scope, int learner, int report, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await ReportWork.FindAsync(db, caller, report, stop) is not { } work || work.Report is not { State: ReportState.Shared, SharedAt: { } shared }
            || work.Report.LearnerId != learner)
            return null;
        var agency = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        var zone = DateTimeZoneProviders.Tzdb[agency.TimeZone];
        var child = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == work.Report.LearnerId).Select(l => l.Name).SingleAsync(stop);
        var signers = work.Signatures.Select(s => s.PersonId).ToList();
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId && signers.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var goals = await GoalNamesAsync(db, work, stop);
        var facts = work.Content.Facts?.Goals.ToDictionary(g => g.Goal) ?? [];
        return new FamilyReport(
            report, child, agency.Name, work.Period.StartDay, work.Period.EndDay,
            [.. work.Goals.Select(g => new FamilyReportGoal(goals[g.GoalId].Area, goals[g.GoalId].Statement, g.Said, facts.GetValueOrDefault(g.GoalId)))],
            [.. new Shown(caller, work, names, await SignedAsync(db, caller.AgencyId, report, agency.TimeZone, stop), zone).Signatures().Where(s => s.Stands)], shared.InZone(zone).Date);
    }, stop);

    private sealed record SignedName(int Id, string Name);

    /// <summary>What whoever signed was called on that day, by signature.</summary>
    private static Task<Dictionary<int, string>> SignedAsync(PortalDb db, int agency, int report, string zone, CancellationToken stop) => db.Database.SqlQuery<SignedName>(
        $"select id, portal.person_name_on(person_id, (signed_at at time zone {zone})::date) as name from portal.report_signatures where agency_id = {agency} and report_id = {report}")
        .ToDictionaryAsync(s => s.Id, s => s.Name, stop);

    private static async Task<Dictionary<int, (string Area, string Statement)>> GoalNamesAsync(PortalDb db, ReportWork work, CancellationToken stop)
    {
        var ids = work.Goals.Select(g => g.GoalId).ToList();
        return await db.Goals.IgnoreQueryFilters().Where(g => g.AgencyId == work.Report.AgencyId && ids.Contains(g.Id))
            .ToDictionaryAsync(g => g.Id, g => (g.Area, g.Statement), stop);
    }

    private sealed class Shown(Caller caller, ReportWork work, Dictionary<int, string> names, Dictionary<int, string> signed, DateTimeZone zone)
    {
        public ReportPage Page(
            string learner, string agency, List<ReportPartRow> parts, Dictionary<int, (string Area, string Statement)> goals, string? credential)
        {
            var (report, content) = (work.Report, work.Content);
            var facts = content.Facts?.Goals.ToDictionary(g => g.Goal) ?? [];
            var may = ReportRules.MayBegin(caller, report.LearnerId);
            return new(
                report.Id, report.LearnerId, learner, agency, work.Period.Name, work.Period.StartDay, work.Period.EndDay, report.Edition, report.State, report.Version,
                report.Hash, content.Facts, [.. work.Goals.Select(g => Goal(g, facts.GetValueOrDefault(g.GoalId), goals[g.GoalId], parts))],
                [.. work.People.Select(p => new ReportSigner(Name(p.PersonId), p.HasSigned, p.PersonId == caller.PersonId))], [.. Signatures()], credential)
            {
                FinishedWithout = report.FinishedWithout,
                SharedAt = report.SharedAt?.InZone(zone).LocalDateTime,
                Replaced = report.TakenBackReason,
                Manages = caller.Manages(report.LearnerId),
                MaySign = ReportRules.MaySign(caller, report.LearnerId, work.People),
                HasSigned = work.Signatures.Any(s => s.PersonId == caller.PersonId && s.Hash == report.Hash),
                MayBringIn = may && report.State == ReportState.Open,
                NotReady = [.. ReportRules.CheckReady(content).Select(p => p.Message)],
            };
        }

        public IEnumerable<ReportSignature> Signatures() => work.Signatures.Select(s => new ReportSignature(
            signed.GetValueOrDefault(s.Id) ?? Name(s.PersonId), s.Credential, s.SignedAt.InZone(zone).LocalDateTime, s.Hash == work.Report.Hash,
            s.PersonId == work.Report.FinishedBy && s.SignedAt == work.Report.FinishedAt));

        private ReportGoal Goal(ReportGoalRow row, GoalFacts? facts, (string Area, string Statement) named, List<ReportPartRow> parts)
        {
            var own = parts.Where(p => p.GoalId == row.GoalId).OrderBy(p => p.WrittenAt).ToList();
            return new(
                row.Said, facts, named.Area, named.Statement, row.Version, row.JoinedBy is { } by ? Name(by) : null,
                [.. own.Select(p => new ReportPart(Name(p.PersonId), p.Words, p.WrittenAt.InZone(zone).LocalDateTime, p.PersonId == caller.PersonId, p.Version))],
                [.. work.Owners[row.GoalId].Where(o => own.TrueForAll(p => p.PersonId != o)).Select(Name)],
                ReportRules.MayWrite(caller, row.LearnerId, work.Owners[row.GoalId]), Review(row));
        }

        private ReportReview? Review(ReportGoalRow row) => row.Status == ReportStatus.NotEnough && work.Report.FinishedAt is not null
            ? new(row.ReviewWord, row.ReviewedBy is { } by ? Name(by) : null, row.ReviewedAt?.InZone(zone).LocalDateTime)
            : null;

        private string Name(int person) => names.GetValueOrDefault(person, "somebody");
    }
}
