using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;
using TeamMember = TeamCircle.Data.Sessions.TeamMember;

namespace TeamCircle.Data.Moves;

/// <summary>A visit that handing over left behind, and who could give it.</summary>
/// <param name="LastDay">Of the person whose visit it is.</param>
/// <param name="Successor">To whom the learner was handed over last and who is on the team that day; null: nobody.</param>
/// <param name="Team">Whoever works with the learner on the visit's day, without the person who leaves.</param>
/// <param name="Against">What stands against the successor's giving it at its time; empty where nothing does, or there is no successor.</param>
public sealed record LeftVisitPage(PlannedVisitPage Planned, LocalDate LastDay, NamedId? Successor, IReadOnlyList<NamedId> Team, IReadOnlyList<Clash> Against);

/// <summary>Reads a visit that handing over left behind.</summary>
public sealed class ReadLeftVisit(Portal portal, ReadPlannedVisit visits)
{
    /// <summary>Null where the caller does not manage the learner, or the visit is not left behind.</summary>
    public async Task<LeftVisitPage?> RunAsync(Caller caller, Scope scope, Guid id, CancellationToken stop = default) =>
        await portal.ReadAsync(scope, db => LeftAsync(db, caller, id, stop), stop) is { } left && await visits.RunAsync(scope, caller, id, stop) is { MayChange: true } planned
            ? new(planned, left.LastDay, left.Successor, left.Team, left.Against) : null;

    private sealed record Left(LocalDate LastDay, NamedId? Successor, IReadOnlyList<NamedId> Team, IReadOnlyList<Clash> Against);

    private static async Task<Left?> LeftAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        if (await db.Visits.SingleOrDefaultAsync(v => v.AgencyId == caller.AgencyId && v.Id == id && v.Live && v.State == VisitState.Planned, stop) is not { } visit
            || !caller.Manages(visit.LearnerId) || await DecideLeftVisit.LastDayAsync(db, visit, stop) is not { } last)
            return null;
        var team = (await TeamMember.ReadAsync(db, visit.AgencyId, [visit.LearnerId], visit.OnDay, stop))
            .Where(t => t.PersonId != visit.ProviderId).Select(t => new NamedId(t.PersonId, t.Name)).ToList();
        var handedTo = await db.LearnerHandOvers.Where(h => h.AgencyId == visit.AgencyId && h.LearnerId == visit.LearnerId && h.PersonId == visit.ProviderId
            && h.LastDay == last.Day && h.UndoneAt == null && h.FromDay <= visit.OnDay).OrderBy(h => h.Id).Select(h => h.ToPersonId).LastOrDefaultAsync(stop);
        var successor = team.Find(t => t.Id == handedTo);
        return new(last.Day, successor, team, successor is null ? [] : await AgainstAsync(db, visit, successor.Id, stop));
    }

    private static async Task<IReadOnlyList<Clash>> AgainstAsync(PortalDb db, VisitRow visit, int to, CancellationToken stop)
    {
        var spec = (await VisitSpec.OfAsync(db, visit, stop)) with { Provider = to };
        return (await DayBook.ReadAsync(db, spec, visit.OnDay, visit.OnDay, [visit.Id], stop)).Clashes(visit.OnDay);
    }
}
