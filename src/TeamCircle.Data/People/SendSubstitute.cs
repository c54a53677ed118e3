using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.People;

/// <summary>
/// Somebody else comes: hands one person's visits with a learner, from one day to another, to a colleague who reaches the learner on the days of those
/// visits and on no other.
/// </summary>
public sealed class SendSubstitute(Portal portal)
{
    public sealed record Input
    {
        /// <summary>The first visit.</summary>
        public Guid Visit { get; init; }
        public int Version { get; init; }
        public int? Person { get; init; }

        /// <summary>Null: the day of that visit only.</summary>
        public LocalDate? LastDay { get; init; }

        /// <summary>Said once a clash was shown: they take place all the same.</summary>
        public bool Confirmed { get; init; }
    }

    /// <param name="Days">On which they come, in order.</param>
    public sealed record Saved(string Person, LocalDate[] Days);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(SendSubstitute), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
        if (found.Value is not { } first)
            return Outcome<Saved>.Refused(found.Problems);
        var team = await AddTeamMember.StandingAsync(db, caller.AgencyId, first.LearnerId, stop);
        var roles = await ReadStaff.RolesAsync(db, caller.AgencyId, caller.Today, stop);
        Problem[] problems = [.. SubstituteRules.Check(
            input.Person, first.ProviderId, first.OnDay, input.LastDay, caller.Today, new(roles, [.. team.Select(AddTeamMember.Dates)]))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var visits = await VisitsAsync(db, first, input.LastDay ?? first.OnDay, stop);
        if (await HandOverAsync(db, visits, input, stop) is { Count: > 0 } clashes)
            return Outcome<Saved>.Refused([.. clashes.Distinct()]);
        LocalDate[] days = [.. visits.Select(v => v.OnDay).Distinct().Order()];
        StandIn(db, caller, first.LearnerId, input.Person!.Value, days, team);
        return Outcome<Saved>.Of(new((await db.People.FindAsync([caller.AgencyId, input.Person.Value], stop))!.Name, days));
    }

    /// <summary>That visit, and those of the same person and learner that follow it up to the last day, locked.</summary>
    private static async Task<List<VisitRow>> VisitsAsync(PortalDb db, VisitRow first, LocalDate last, CancellationToken stop)
    {
        var ids = await db.Visits.Where(v => v.AgencyId == first.AgencyId && v.LearnerId == first.LearnerId && v.ProviderId == first.ProviderId && v.Live
                && v.State == VisitState.Planned && v.OnDay >= first.OnDay && v.OnDay <= last && (v.OnDay > first.OnDay || v.StartTime >= first.StartTime))
            .Select(v => v.Id).ToListAsync(stop);
        return (await LoggedVisit.LockAsync(db, first.AgencyId, ids, stop)).FindAll(v => v is { Live: true, State: VisitState.Planned });
    }

    private static async Task<List<Problem>> HandOverAsync(PortalDb db, List<VisitRow> visits, Input input, CancellationToken stop)
    {
        var clashes = new List<Problem>();
        foreach (var visit in visits)
        {
            var to = input.Person!.Value;
            var spec = (await VisitSpec.OfAsync(db, visit, stop)) with { Provider = to, Partner = visit.PartnerId == to ? null : visit.PartnerId };
            clashes.AddRange(await PlannedVisit.MoveAsync(db, visit, spec, visit.OnDay, input.Confirmed, stop));
            visit.PartnerId = spec.Partner;
        }
        return clashes;
    }

    private static void StandIn(PortalDb db, Caller caller, int learner, int person, LocalDate[] days, List<RelationRow> team)
    {
        foreach (var day in days.Where(d => !team.Exists(r => r.PersonId == person && r.Kind == Relation.Substitute && AddTeamMember.Dates(r).Holds(d))))
            db.Add(new RelationRow { AgencyId = caller.AgencyId, LearnerId = learner, PersonId = person, Kind = Relation.Substitute, FromDay = day, ToDay = day });
    }
}
