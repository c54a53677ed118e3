using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Papers;

/// <param name="Papers">The latest first.</param>
public sealed record PapersPage(int LearnerId, string Learner, IReadOnlyList<PaperShown> Papers, bool MayKeep);

/// <summary>A paper, and each time that it was sent.</summary>
/// <param name="Name">The period of a report or statement, what a meeting, an evaluation or a notice is about.</param>
/// <param name="Day">The last day of the period, the day of the meeting, the day of the first sending.</param>
/// <param name="Due">Null where it has none.</param>
/// <param name="IsReady">Whether it can go out: a report is finished.</param>
/// <param name="SharedOn">For a report: since when the family can read it in the portal; null where it cannot.</param>
/// <param name="Sendings">The latest first, those taken back too.</param>
public sealed record PaperShown(PaperPlace Place, string Name, LocalDate Day, LocalDate? Due, bool IsReady, LocalDate? SharedOn, IReadOnlyList<SendingShown> Sendings)
{
    /// <summary>What can be read in the portal has been sent on the day on which it was shared.</summary>
    public DeliveryState StateOn(LocalDate today) => Deliveries.StateOf(
        Due, [.. Sendings.Where(s => s.TakenBack is null).Select(s => new Sending(s.SentOn, s.ReturnedOn)), .. SharedOn is { } day ? new Sending[] { new(day, null) } : []], today);
}

/// <param name="TakenBack">Why it did not go out as was said; null where it stands.</param>
public sealed record SendingShown(
    int Id, LocalDate SentOn, DeliveryWay Way, string Language, string ToWhom, string By, LocalDate? ReturnedOn, string? ReturnedWord, string? TakenBack, int Version);

/// <summary>Reads what went out to the parents of a learner.</summary>
public sealed class ReadPapers(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<PapersPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
        await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is { } name
            ? new PapersPage(learner, name, await new Query(db, scope.AgencyId, learner).RunAsync(stop), Deliveries.MayKeep(caller, learner)) : null, stop);

    /// <summary>For whoever keeps the learner's papers, also one that was taken back; null otherwise.</summary>
    internal static async Task<DeliveryRow?> FindAsync(PortalDb db, Caller caller, int learner, int delivery, CancellationToken stop) =>
        Deliveries.MayKeep(caller, learner)
            ? await db.Deliveries.IgnoreQueryFilters().SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.LearnerId == learner && d.Id == delivery, stop) : null;

    private sealed class Query(PortalDb db, int agency, int learner)
    {
        private ILookup<(PaperKind, int?), SendingShown> _sendings = null!;
        private DateTimeZone _zone = DateTimeZone.Utc;

        public async Task<IReadOnlyList<PaperShown>> RunAsync(CancellationToken stop)
        {
            _zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
            var rows = await (
                from d in db.Deliveries.IgnoreQueryFilters()
                join p in db.People on new { d.AgencyId, Id = d.SentBy } equals new { p.AgencyId, p.Id } into senders
                from sender in senders.DefaultIfEmpty()
                where d.AgencyId == agency && d.LearnerId == learner
                orderby d.SentOn descending, d.Id descending
                select new { Row = d, By = sender == null ? "a colleague" : sender.Name }).ToListAsync(stop);
            _sendings = rows.ToLookup(r => (r.Row.Paper, r.Row.ReportId ?? r.Row.StatementId ?? r.Row.MeetingId), r => Shown(r.Row, r.By));
            PaperShown[] others = [.. rows.Where(r => !PaperPlace.IsKnown(r.Row.Paper)).GroupBy(r => (r.Row.Paper, r.Row.About!))
                .Select(g => new PaperShown(new(g.Key.Paper), g.Key.Item2, g.Min(r => r.Row.SentOn), null, true, null, [.. g.Select(r => Shown(r.Row, r.By))]))];
            return [.. (await ReportsAsync(stop)).Concat(await StatementsAsync(stop)).Concat(await MeetingsAsync(stop)).Concat(others)
                .OrderByDescending(p => p.Day).ThenBy(p => p.Place.Kind)];
        }

        /// <summary>The editions that stand, and replaced ones that had gone out.</summary>
        private async Task<IEnumerable<PaperShown>> ReportsAsync(CancellationToken stop)
        {
            var rows = await (
                from r in db.Reports.IgnoreQueryFilters()
                join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
                where r.AgencyId == agency && r.LearnerId == learner
                select new { r.Id, r.Edition, r.Live, r.FinishedAt, r.SharedAt, p.Name, p.EndDay }).ToListAsync(stop);
            return rows.Where(r => r.Live || r.SharedAt is not null || _sendings[(PaperKind.Report, r.Id)].Any()).Select(r => new PaperShown(
                new(PaperKind.Report, r.Id), Edition(r.Name, r.Edition), r.EndDay, r.Live ? BoundDates.ReportDue(r.EndDay) : null, r.FinishedAt is not null,
                r.SharedAt?.InZone(_zone).Date, [.. _sendings[(PaperKind.Report, r.Id)]]));
        }

        private async Task<IEnumerable<PaperShown>> StatementsAsync(CancellationToken stop)
        {
            var rows = await (
                from s in db.Statements
                join p in db.Periods.IgnoreQueryFilters() on new { s.AgencyId, Id = s.PeriodId } equals new { p.AgencyId, p.Id }
                where s.AgencyId == agency && s.LearnerId == learner
                select new { s.Id, s.Edition, p.Name, p.EndDay }).ToListAsync(stop);
            return rows.Select(s => new PaperShown(new(PaperKind.Statement, s.Id), Edition(s.Name, s.Edition), s.EndDay, null, true, null, [.. _sendings[(PaperKind.Statement, s.Id)]]));
        }

        private async Task<IEnumerable<PaperShown>> MeetingsAsync(CancellationToken stop) => (await db.Meetings.Where(m => m.AgencyId == agency && m.LearnerId == learner)
            .Select(m => new { m.Id, m.About, m.OnDay, m.FamilyBy }).ToListAsync(stop))
            .Select(m => new PaperShown(new(PaperKind.MeetingPack, m.Id), m.About, m.OnDay, m.FamilyBy, true, null, [.. _sendings[(PaperKind.MeetingPack, m.Id)]]));

        private static string Edition(string name, int edition) => edition == 1 ? name : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name}, edition {edition}");

        private static SendingShown Shown(DeliveryRow row, string by) => new(
            row.Id, row.SentOn, row.Way, row.Language, row.ToWhom, by, row.ReturnedOn, row.ReturnedWord, row.TakenBackReason, row.Version);
    }
}
