using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>The newest card of a routine that goes on; null where nobody has written it yet.</summary>
internal sealed record HeldCard(int Learner, int Routine, string Name, RoutineContent? Card);

/// <summary>Facts about holds that several reads need.</summary>
internal static class HoldFacts
{
    /// <summary>The holds of learners, newest first.</summary>
    /// <param name="ended">Those that have ended too.</param>
    public static async Task<ILookup<int, HoldShown>> ReadAsync(PortalDb db, int agency, IReadOnlyCollection<int> learners, bool ended, CancellationToken stop)
    {
        var rows = await db.Holds.AsNoTracking().Where(h => h.AgencyId == agency && learners.Contains(h.LearnerId) && (ended || h.EndedAt == null))
            .OrderByDescending(h => h.SetAt).ThenByDescending(h => h.Id)
            .Select(h => new NamedHold(
                h, db.Agencies.Where(a => a.Id == h.AgencyId).Select(a => a.TimeZone).First(),
                db.Routines.Where(r => r.AgencyId == h.AgencyId && r.Id == h.RoutineId).Select(r => r.Name).FirstOrDefault(),
                db.People.Where(p => p.AgencyId == h.AgencyId && p.Id == h.SetBy).Select(p => p.Name).FirstOrDefault(),
                db.People.Where(p => p.AgencyId == h.AgencyId && p.Id == h.EndedBy).Select(p => p.Name).FirstOrDefault())).ToListAsync(stop);
        if (rows.Count == 0)
            return rows.ToLookup(_ => 0, _ => default(HoldShown)!);
        int[] held = [.. rows.Select(r => r.Row.LearnerId).Distinct()];
        var services = rows.Exists(r => r.Row.ServiceId is not null) ? await ServicesAsync(db, agency, held, stop) : [];
        var cards = (await CardsAsync(db, agency, held, stop)).ToLookup(c => c.Learner);
        return rows.ToLookup(r => r.Row.LearnerId, r => r.Show([.. cards[r.Row.LearnerId]], services));
    }

    /// <summary>What stops something at each visit: what is planned for it, or anything where nothing is.</summary>
    public static async Task<ILookup<Guid, HoldShown>> AtVisitsAsync(PortalDb db, int agency, IReadOnlyCollection<(Guid Id, int Learner)> visits, CancellationToken stop)
    {
        var holds = await ReadAsync(db, agency, [.. visits.Select(v => v.Learner).Distinct()], ended: false, stop);
        var touched = visits.Where(v => holds.Contains(v.Learner)).ToList();
        List<Guid> ids = [.. touched.Select(v => v.Id)];
        var planned = ids.Count == 0 ? [] : await db.VisitRoutines.Where(r => r.AgencyId == agency && ids.Contains(r.VisitId)).Select(r => new { r.VisitId, r.RoutineId }).ToListAsync(stop);
        var routines = planned.ToLookup(p => p.VisitId, p => p.RoutineId);
        var services = touched.Exists(v => holds[v.Learner].Any(h => h.Place.Service is not null))
            ? await db.Visits.Where(v => v.AgencyId == agency && ids.Contains(v.Id)).ToDictionaryAsync(v => v.Id, v => v.ServiceId, stop) : [];
        bool Touches(HoldShown hold, Guid visit) => hold.Place.Service is not null
            ? services[visit] is { } service && hold.Services.Contains(service)
            : !routines[visit].Any() || routines[visit].Any(hold.Stops.ContainsKey);
        return touched.SelectMany(v => holds[v.Learner].Where(h => Touches(h, v.Id)).Select(h => (v.Id, Hold: h))).ToLookup(p => p.Id, p => p.Hold);
    }

    /// <summary>What stopped a routine at a moment, also where the hold has ended since.</summary>
    /// <param name="card">The content of <paramref name="version"/>, which was practised.</param>
    /// <param name="when">The moment, and the visit at which it was practised; null outside one.</param>
    public static async Task<IReadOnlyList<HoldRow>> StoppedAtAsync(
        PortalDb db, RoutineVersionRow version, RoutineContent card, (Instant At, Guid? Visit) when, CancellationToken stop)
    {
        var at = when.At;
        var holds = await db.Holds.AsNoTracking()
            .Where(h => h.AgencyId == version.AgencyId && h.LearnerId == version.LearnerId && h.SetAt <= at && (h.EndedAt == null || h.EndedAt > at)).ToListAsync(stop);
        var services = holds.Exists(h => h.ServiceId is not null) && when.Visit is not null ? await ServicesAsync(db, version.AgencyId, [version.LearnerId], stop) : [];
        var service = services.Count == 0 ? null
            : await db.Visits.Where(v => v.AgencyId == version.AgencyId && v.Id == when.Visit).Select(v => v.ServiceId).SingleOrDefaultAsync(stop);
        return [.. holds.Where(h => h.ServiceId is { } held
            ? HoldRules.StopsService(held, service, id => services.GetValueOrDefault(id)?.Continues)
            : HoldRules.Effect(h.Place, version.RoutineId, card) != HoldEffect.Nothing)];
    }

    /// <summary>Why nothing is practised now at visits of these services; empty where something may.</summary>
    public static async Task<IReadOnlyList<string>> OnServicesAsync(PortalDb db, int agency, int[] learners, int[] services, CancellationToken stop)
    {
        var holds = await db.Holds.AsNoTracking().OfLearners(agency, learners).Where(h => h.ServiceId != null && h.EndedAt == null).ToListAsync(stop);
        if (holds.Count == 0)
            return [];
        var lines = await ServicesAsync(db, agency, learners, stop);
        return [.. holds.Where(h => services.Any(s => HoldRules.StopsService(h.ServiceId!.Value, s, id => lines.GetValueOrDefault(id)?.Continues))).Select(h => h.Reason)];
    }

    /// <summary>Learners' services, taken back or not, by id.</summary>
    private static Task<Dictionary<int, HeldService>> ServicesAsync(PortalDb db, int agency, int[] learners, CancellationToken stop) => db.Services.IgnoreQueryFilters()
        .Where(s => s.AgencyId == agency && learners.Contains(s.LearnerId)).ToDictionaryAsync(s => s.Id, s => new HeldService(s.Id, s.Discipline, s.ContinuesId), stop);

    public static async Task<IReadOnlyList<HeldCard>> CardsAsync(PortalDb db, int agency, IReadOnlyCollection<int> learners, CancellationToken stop)
    {
        var routines = await (
            from r in db.Routines
            where r.AgencyId == agency && learners.Contains(r.LearnerId) && r.Live
            orderby r.Name
            select new
            {
                r.LearnerId,
                r.Id,
                r.Name,
                Content = db.RoutineVersions.Where(v => v.AgencyId == r.AgencyId && v.RoutineId == r.Id).OrderByDescending(v => v.Number).Select(v => v.Content).FirstOrDefault(),
            }).ToListAsync(stop);
        return [.. routines.Select(r => new HeldCard(r.LearnerId, r.Id, r.Name, r.Content is null ? null : RoutineContent.Read(r.Content)))];
    }

    private sealed record HeldService(int Id, Discipline Discipline, int? Continues);

    /// <param name="By">Null where the reader may not know who.</param>
    private sealed record NamedHold(HoldRow Row, string TimeZone, string? Routine, string? By, string? EndedBy)
    {
        public HoldShown Show(IReadOnlyList<HeldCard> cards, Dictionary<int, HeldService> services) => new(
            Row.Id, Row.Version, Row.Place, Routine, StepOf(cards), Row.Reason, Row.ToldAs, Row.ToldBy, Row.ToldOn,
            Row.ToldTime, By ?? "somebody", At(Row.SetAt), End)
        {
            Stops = Row.EndedAt is not null ? new() : cards.Select(c => (c.Routine, Effect: HoldRules.Effect(Row.Place, c.Routine, c.Card)))
                .Where(e => e.Effect != HoldEffect.Nothing).ToDictionary(e => e.Routine, e => e.Effect),
            Service = Row.ServiceId is { } service ? services[service].Discipline : null,
            Services = Row is { ServiceId: { } held, EndedAt: null }
                ? services.Keys.Where(s => HoldRules.StopsService(held, s, id => services[id].Continues)).ToHashSet() : new HashSet<int>(),
        };

        private HoldEnd? End => Row is { EndedAt: { } at, EndedBy: not null } ? new(EndedBy ?? "somebody", At(at), Row.EndedWord ?? "", Row.AgreedBy) : null;

        private LocalDateTime At(Instant instant) => instant.InZone(DateTimeZoneProviders.Tzdb[TimeZone]).LocalDateTime;

        private string? StepOf(IReadOnlyList<HeldCard> cards) => Row.StepKey is not { } key ? null
            : cards.FirstOrDefault(c => c.Routine == Row.RoutineId)?.Card?.Steps.FirstOrDefault(s => s.Key == key)?.Words ?? key;
    }
}
