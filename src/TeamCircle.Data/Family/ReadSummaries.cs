using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Family;

/// <summary>A learner's summaries for the staff.</summary>
/// <param name="Summaries">The latest first; replaced and withdrawn ones among them, thrown-away drafts not.</param>
/// <param name="From">Where the next one begins: the day after the last published one, or with the reporting period.</param>
public sealed record SummariesPage(int LearnerId, string Learner, IReadOnlyList<SummaryListed> Summaries, LocalDate From, bool MayWrite);

public sealed record SummaryListed(int Id, int Edition, SummaryState State, LocalDate From, LocalDate To, LocalDateTime? PublishedAt, string? Why);

/// <summary>One edition, as its readers need it.</summary>
/// <param name="Agency">The agency's name.</param>
/// <param name="CaseManager">Whom to ask today; null where there is nobody.</param>
/// <param name="PublishedBy">Null for a draft, and so is the next.</param>
/// <param name="Why">Why it was withdrawn or replaced; null where it was not.</param>
/// <param name="CorrectsWhy">What was wrong with the edition before; null for a first one.</param>
/// <param name="MayWrite">Whether the reader writes, publishes and withdraws it.</param>
public sealed record SummaryPage(
    int Id, int LearnerId, string Learner, string Agency, int Edition, SummaryState State, LocalDate From, LocalDate To, SummaryContent Content, string? CaseManager,
    string? PublishedBy, LocalDate? PublishedOn, string? Why, string? CorrectsWhy, bool MayWrite, int Version)
{
    public string Child => Learner.Split(' ')[0];
}

/// <summary>Reads the summaries of a child.</summary>
public sealed class ReadSummaries(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<SummariesPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == caller.AgencyId && l.Id == learner, stop) is not { } row)
            return null;
        var zone = await ZoneAsync(db, caller.AgencyId, stop);
        var rows = await db.FamilySummaries.IgnoreQueryFilters().Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == learner && (s.Live || s.PublishedAt != null))
            .OrderByDescending(s => s.LastDay).ThenByDescending(s => s.Edition).ThenByDescending(s => s.Id).ToListAsync(stop);
        var period = await db.Periods.Where(p => p.AgencyId == caller.AgencyId && p.StartDay <= caller.Today).OrderByDescending(p => p.StartDay).FirstOrDefaultAsync(stop);
        var last = rows.Where(s => s.State == SummaryState.Published).Select(s => (LocalDate?)s.LastDay.PlusDays(1)).FirstOrDefault();
        return new SummariesPage(
            learner, row.Name, [.. rows.Select(s => new SummaryListed(
                s.Id, s.Edition, s.State, s.FirstDay, s.LastDay, s.PublishedAt?.InZone(zone).LocalDateTime, s.WithdrawnWhy ?? s.TakenBackReason))],
            LocalDate.Min(last ?? period?.StartDay ?? caller.Today, caller.Today), SummaryRules.MayWrite(caller, learner));
    }, stop);

    /// <summary>One edition, whatever its state; null where the scope reaches none of that id of that learner.</summary>
    public Task<SummaryPage?> OneAsync(Caller caller, Scope scope, int learner, int summary, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var found = await (
            from s in db.FamilySummaries.IgnoreQueryFilters()
            join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
            where s.AgencyId == caller.AgencyId && s.LearnerId == learner && s.Id == summary && (s.Live || s.PublishedAt != null)
            select new
            {
                Row = s,
                l.Name,
                Agency = db.Agencies.Where(a => a.Id == s.AgencyId).Select(a => a.Name).First(),
                By = db.People.Where(p => p.AgencyId == s.AgencyId && p.Id == s.PublishedBy).Select(p => p.Name).FirstOrDefault(),
            }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var zone = await ZoneAsync(db, caller.AgencyId, stop);
        var row = found.Row;
        return new SummaryPage(
            row.Id, learner, found.Name, found.Agency, row.Edition, row.State, row.FirstDay, row.LastDay, SummaryContent.Read(row.Content),
            await CaseManagerAsync(db, caller, learner, stop), found.By, row.PublishedAt?.InZone(zone).Date, row.WithdrawnWhy ?? row.TakenBackReason, row.CorrectsWhy,
            SummaryRules.MayWrite(caller, learner), row.Version);
    }, stop);

    /// <summary>As the family reads it: null unless it is published and nothing has taken its place.</summary>
    public async Task<SummaryPage?> ForFamilyAsync(Caller caller, Scope scope, int learner, int summary, CancellationToken stop = default) =>
        await OneAsync(caller, scope, learner, summary, stop) is { State: SummaryState.Published } page ? page : null;

    private static async Task<DateTimeZone> ZoneAsync(PortalDb db, int agency, CancellationToken stop) =>
        DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];

    private static Task<string?> CaseManagerAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) => (
        from r in db.Relations
        join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
        where r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Kind == Relation.CaseManager
            && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
        orderby p.Name
        select p.Name).FirstOrDefaultAsync(stop);
}
