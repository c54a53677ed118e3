using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Practice;

/// <summary>Reads one practice with its figures.</summary>
public sealed class ReadPractice(Portal portal)
{
    /// <summary>Null where the scope reaches no such practice.</summary>
    public Task<PracticePage?> RunAsync(Caller caller, Scope scope, Guid practice, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, caller, practice, stop), stop);

    private static async Task<PracticePage?> ReadAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        var found = await (
            from p in db.Practices
            join l in db.Learners on new { p.AgencyId, Id = p.LearnerId } equals new { l.AgencyId, l.Id }
            join r in db.Routines on new { p.AgencyId, p.LearnerId, Id = p.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
            join v in db.RoutineVersions on new { p.AgencyId, p.LearnerId, Id = p.VersionId } equals new { v.AgencyId, v.LearnerId, v.Id }
            join who in db.People on new { p.AgencyId, Id = p.ProviderId } equals new { who.AgencyId, who.Id }
            where p.AgencyId == agency && p.Id == id && p.Live
            select new { Row = p, Learner = l.Name, Routine = r.Name, v.Number, v.Content, Provider = who.Name }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var device = await db.Devices.Where(d => d.AgencyId == agency && d.Id == found.Row.DeviceId).Select(d => d.Name).SingleOrDefaultAsync(stop);
        var (record, card) = (PracticeJson.Read(found.Row.Record), RoutineContent.Read(found.Content));
        var figures = PracticeFigures.Of(record, AgreedStep.Of(card));
        return new(
            id, found.Row.LearnerId, found.Learner, found.Row.RoutineId, found.Routine, found.Number, found.Row.ProviderId, found.Provider,
            found.Row.StartedAt.InZone(zone).LocalDateTime, found.Row.EndedAt.InZone(zone).LocalDateTime, found.Row.SkewMs, device, found.Row.VisitId, found.Row.Observes,
            !record.IsSecond && RecordRules.MayRecord(caller, found.Row.LearnerId, found.Row.ProviderId), MayScore(caller, found.Row), record, card, figures,
            record.IsSecond ? [] : await GoalsAsync(db, found.Row, record, card, figures, stop))
        {
            Others = await OthersAsync(db, found.Row, figures, stop),
            Under = found.Row.UnderHolds.Length > 0 ? await UnderAsync(db, found.Row, stop) : null,
        };
    }

    /// <summary>Whether somebody may score the trials of a practice once more.</summary>
    internal static bool MayScore(Caller caller, PracticeRow row) =>
        row.ObservesCode is null && row.ProviderId != caller.PersonId && RecordRules.MayRecord(caller, row.LearnerId, caller.PersonId);

    private static async Task<IReadOnlyList<OtherScore>> OthersAsync(PortalDb db, PracticeRow row, PracticeFigures figures, CancellationToken stop)
    {
        var others = await (
            from p in db.Practices
            join v in db.RoutineVersions on new { p.AgencyId, p.LearnerId, Id = p.VersionId } equals new { v.AgencyId, v.LearnerId, v.Id }
            join who in db.People on new { p.AgencyId, Id = p.ProviderId } equals new { who.AgencyId, who.Id }
            where p.AgencyId == row.AgencyId && p.Live && (p.Observes == row.Id || p.Id == row.Observes)
            orderby p.RecordedAt
            select new { p.Id, p.Record, v.Content, who.Name }).ToListAsync(stop);
        return [.. others.Select(o =>
        {
            var record = PracticeJson.Read(o.Record);
            var trials = PracticeFigures.Of(record, AgreedStep.Of(RoutineContent.Read(o.Content))).Trials;
            return new OtherScore(o.Id, o.Name, record.From, record.IsSecond ? ScoredTwice.Of(figures.Trials, trials) : ScoredTwice.Of(trials, figures.Trials));
        })];
    }

    private static async Task<UnderHolds> UnderAsync(PortalDb db, PracticeRow row, CancellationToken stop) => new(
        await db.Holds.Where(h => h.AgencyId == row.AgencyId && row.UnderHolds.Contains(h.Id)).OrderBy(h => h.Id).Select(h => h.Reason).ToListAsync(stop),
        await db.People.Where(p => p.AgencyId == row.AgencyId && p.Id == row.RecordedBy).Select(p => p.Name).SingleAsync(stop), row.UnderHoldsWord ?? "");

    private static async Task<IReadOnlyList<PracticeGoal>> GoalsAsync(
        PortalDb db, PracticeRow row, PracticeRecord record, RoutineContent card, PracticeFigures figures, CancellationToken stop)
    {
        var ids = figures.Goals.Select(g => g.Goal).ToList();
        var goals = await db.Goals.AsNoTracking().Where(g => g.AgencyId == row.AgencyId && g.LearnerId == row.LearnerId && ids.Contains(g.Id)).ToDictionaryAsync(g => g.Id, stop);
        var added = await db.Probes.Where(p => p.AgencyId == row.AgencyId && p.PracticeId == row.Id && p.Live).ToDictionaryAsync(p => p.GoalId, p => p.Kind, stop);
        var earlier = (await (
            from t in db.Trials
            join p in db.Practices on new { t.AgencyId, t.LearnerId, Id = t.PracticeId } equals new { p.AgencyId, p.LearnerId, p.Id }
            where p.AgencyId == row.AgencyId && p.LearnerId == row.LearnerId && p.Live && p.OnDay == row.OnDay && p.StartedAt < row.StartedAt
            select t.Goals).ToListAsync(stop)).SelectMany(g => g).ToHashSet();
        var steps = AgreedStep.Of(card);
        return [.. figures.Goals.Where(g => goals.ContainsKey(g.Goal)).Select(g => new PracticeGoal(
            g, goals[g.Goal].Area, goals[g.Goal].Statement, goals[g.Goal].Measure, ProbeOffer.Of(goals[g.Goal].Measure, g),
            [.. ProbeOffer.WhyNoProbe(record, g, steps, !earlier.Contains(g.Goal))], added.TryGetValue(g.Goal, out var kind) ? kind : null))];
    }
}
