using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Calendar;

/// <summary>A visit as it stands in the calendar: when, where, by whom, as part of which series, and what can still be changed.</summary>
/// <param name="Place">The name of the agency's place; null where nobody said.</param>
/// <param name="MayPlan">Whether the reader may change, hand over or cancel it.</param>
/// <param name="Undo">The last change, where the reader can take it back.</param>
public sealed record PlannedVisitPage(
    VisitFacts Visit, string? Place, IReadOnlyList<string> Routines, SeriesFacts? Series, AwayFacts? Away, bool MayPlan, UndoFacts? Undo,
    IReadOnlyList<Colleague> Team, IReadOnlyList<PlaceShown> Places)
{
    /// <summary>What stops something at it; none once it is past, logged or called off.</summary>
    public IReadOnlyList<HoldShown> Holds { get; init; } = [];

    /// <summary>Whether it is still to be, and the reader may change it.</summary>
    public bool MayChange => MayPlan && Visit.State == VisitState.Planned;

    /// <summary>The name of the closure on whose day it is; null where there is none.</summary>
    public string? ClosedBy { get; init; }

    /// <summary>Whether a person said that it takes place though there is no school.</summary>
    public bool OnClosedDay { get; init; }
}

/// <param name="Discipline">Null for a visit of another kind.</param>
public sealed record VisitFacts(
    Guid Id, int Version, int LearnerId, string Learner, VisitKind Kind, Discipline? Discipline, Colleague Provider, string? Partner, LocalDate OnDay,
    LocalTime Start, int Minutes, LocalTime? ExpectedStart, VisitState State, bool Live, Reason? CalledOff, LocalDate? PaysOn, Place Place, int? PlaceId,
    SessionFormat Format, bool Touched, LocalDateTime? OriginalStart);

/// <param name="Cadence">Null for a rule that the form cannot say.</param>
/// <param name="EndsOn">Null: to the end of the service or the plan.</param>
public sealed record SeriesFacts(int Id, Cadence? Cadence, string Rule, LocalDate FirstDay, LocalDate? EndsOn, LocalTime Start, int Minutes, Place Place, int? PlaceId, bool Live);

public sealed record AwayFacts(AwayReason Reason, LocalDate FromDay, LocalDate? UntilDay);

/// <param name="At">In the agency's zone.</param>
/// <param name="Others">How many other visits the same act changed.</param>
public sealed record UndoFacts(Guid Act, string By, LocalDateTime At, int Others);

/// <summary>Reads one visit as it stands in the calendar.</summary>
public sealed class ReadPlannedVisit(Portal portal)
{
    /// <summary>Null where the scope reaches no such visit.</summary>
    public Task<PlannedVisitPage?> RunAsync(Scope scope, Caller caller, Guid id, CancellationToken stop = default) =>
        portal.ReadAsync(scope, async db =>
        {
            var visit = await db.Visits.SingleOrDefaultAsync(v => v.AgencyId == caller.AgencyId && v.Id == id, stop);
            return visit is null ? null : await PageAsync(db, caller, visit, stop);
        }, stop);

    private static async Task<PlannedVisitPage> PageAsync(PortalDb db, Caller caller, VisitRow visit, CancellationToken stop)
    {
        var spec = await VisitSpec.OfAsync(db, visit, stop);
        var change = await LastChange.FindAsync(db, visit.AgencyId, visit.Id, stop);
        var named = new[] { visit.ProviderId, visit.PartnerId, change?.Person };
        var names = await db.People.Where(p => p.AgencyId == visit.AgencyId && named.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var places = await db.Places.Where(p => p.AgencyId == visit.AgencyId && p.Live).OrderBy(p => p.Code)
            .Select(p => new PlaceShown(p.Id, p.Code, p.Name, p.Kind, p.Version)).ToListAsync(stop);
        var code = (await Travelling.ReadAsync(db, spec, stop)).Here;
        return new(
            Facts(visit, spec, names), places.Find(p => p.Code == code)?.Name,
            await db.VisitRoutines.Where(r => r.AgencyId == visit.AgencyId && r.VisitId == visit.Id)
                .Join(db.Routines.Where(r => r.Live || r.EndedOn > visit.OnDay), r => new { r.AgencyId, Id = r.RoutineId }, r => new { r.AgencyId, r.Id }, (_, r) => r.Name).OrderBy(n => n).ToListAsync(stop),
            await SeriesAsync(db, visit, stop),
            visit.AwayId is null ? null : await db.Aways.Where(a => a.AgencyId == visit.AgencyId && a.Id == visit.AwayId).Select(a => new AwayFacts(a.Reason, a.FromDay, a.UntilDay)).SingleOrDefaultAsync(stop),
            visit.Live && CalendarRules.MayPlan(caller, visit.LearnerId, visit.ProviderId),
            change is not null && UndoChange.MayUndo(caller, visit, change) ? Undo(visit, change, names) : null,
            [.. (await TeamMember.ReadAsync(db, visit.AgencyId, [visit.LearnerId], caller.Today, stop)).Select(t => new Colleague(t.PersonId, t.Name))],
            places)
        {
            ClosedBy = await db.Closures.Where(c => c.AgencyId == visit.AgencyId && c.Live && c.Kind != ClosureKind.Extra && c.OnDay == visit.OnDay)
                .Select(c => c.Name).SingleOrDefaultAsync(stop),
            OnClosedDay = visit.OnClosedDay,
            Holds = visit is { Live: true, State: VisitState.Planned } && visit.OnDay >= caller.Today
                ? [.. (await HoldFacts.AtVisitsAsync(db, visit.AgencyId, [(visit.Id, visit.LearnerId)], stop))[visit.Id]] : [],
        };
    }

    private static VisitFacts Facts(VisitRow v, VisitSpec spec, Dictionary<int, string> names) => new(
        v.Id, v.Version, v.LearnerId, spec.Learner.Name, v.Kind, spec.Service?.Discipline, new(v.ProviderId, names.GetValueOrDefault(v.ProviderId, "somebody")),
        v.PartnerId is { } partner ? names.GetValueOrDefault(partner) : null, v.OnDay, v.PlannedStart ?? v.StartTime, v.PlannedMinutes ?? v.Minutes,
        v.ExpectedStart, v.State, v.Live, v.CalledOff, v.PaysOn, v.Place, v.PlaceId, v.Format, v.Touched, v.OriginalStart);

    private static async Task<SeriesFacts?> SeriesAsync(PortalDb db, VisitRow visit, CancellationToken stop) =>
        visit.SeriesId is not null && await db.Series.SingleOrDefaultAsync(s => s.AgencyId == visit.AgencyId && s.Id == visit.SeriesId, stop) is { } s
            ? new(s.Id, Cadence.Of(s.Rule), s.Rule, s.FirstDay, s.EndsOn, s.StartTime, s.Minutes, s.Place, s.PlaceId, s.Live) : null;

    private static UndoFacts Undo(VisitRow visit, LastChange change, Dictionary<int, string> names) => new(
        change.Operation, names.GetValueOrDefault(change.Person, "somebody"), change.At.InZone(DateTimeZoneProviders.Tzdb[visit.Zone]).LocalDateTime, change.Visits - 1);
}
