using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Calendar;

/// <summary>The agency's policies, and what a change of policy may name.</summary>
/// <param name="Policies">Oldest first; the first one holds for everything before it too.</param>
/// <param name="Periods">Reporting periods that start after today: a policy may begin with one of them.</param>
/// <param name="MayAgree">Who may be the second person.</param>
public sealed record PolicyPage(IReadOnlyList<PolicyView> Policies, IReadOnlyList<PolicyPeriod> Periods, IReadOnlyList<NamedId> MayAgree);

public sealed record PolicyView(
    int Id, int Version, LocalDate FromDay, Policy Policy, string? Words, string? WrittenIn, string? Reason, string? SecondPerson, Instant RecordedAt);

public sealed record PolicyPeriod(string Name, LocalDate StartDay);

/// <summary>Reads the agency's policies.</summary>
public sealed class ReadPolicies(Portal portal)
{
    public Task<PolicyPage> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, caller, stop), stop);

    private static async Task<PolicyPage> FindAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var policies = await (
            from p in db.Policies
            join s in db.People on new { p.AgencyId, Id = p.SecondPersonId ?? 0 } equals new { s.AgencyId, s.Id } into second
            from s in second.DefaultIfEmpty()
            where p.AgencyId == caller.AgencyId
            orderby p.FromDay, p.Id
            select new PolicyView(p.Id, p.Version, p.FromDay, new Policy(p.ShortWindow, p.Surplus, p.TolerancePercent, p.SessionShare),
                p.PolicyWords, p.WrittenIn, p.Reason, s == null ? null : s.Name, p.RecordedAt)).ToListAsync(stop);
        var periods = await db.Periods.Where(p => p.AgencyId == caller.AgencyId && p.StartDay > caller.Today).OrderBy(p => p.StartDay)
            .Select(p => new PolicyPeriod(p.Name, p.StartDay)).ToListAsync(stop);
        return new(policies, periods, await ChangePolicy.MayAgreeAsync(db, caller, stop));
    }
}
