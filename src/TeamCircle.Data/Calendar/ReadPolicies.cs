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

/// <param name="RecordedOn">The agency's day.</param>
public sealed record PolicyView(
    int Id, int Version, LocalDate FromDay, Policy Policy, string? Words, string? WrittenIn, string? Reason, string? SecondPerson, LocalDate RecordedOn);

public sealed record PolicyPeriod(string Name, LocalDate StartDay);

/// <summary>Reads the agency's policies.</summary>
public sealed class ReadPolicies(Portal portal)
{
    public Task<PolicyPage> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, caller, stop), stop);

    private static async Task<PolicyPage> FindAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var policies = await (
            from p in db.Policies
            join s in db.People on new { p.AgencyId, Id = p.SecondPersonId ?? 0 } equals new { s.AgencyId, s.Id } into second
            from s in second.DefaultIfEmpty()
            where p.AgencyId == caller.AgencyId
            orderby p.FromDay, p.Id
            select new { Row = p, Second = s == null ? null : s.Name }).ToListAsync(stop);
        var periods = await db.Periods.Where(p => p.AgencyId == caller.AgencyId && p.StartDay > caller.Today).OrderBy(p => p.StartDay)
            .Select(p => new PolicyPeriod(p.Name, p.StartDay)).ToListAsync(stop);
        return new([.. policies.Select(p => View(p.Row, p.Second, zone))], periods, await ChangePolicy.MayAgreeAsync(db, caller, stop));
    }

    private static PolicyView View(PolicyRow row, string? second, DateTimeZone zone) =>
        new(row.Id, row.Version, row.FromDay, new Policy(row.ShortWindow, row.Surplus, row.TolerancePercent, row.SessionShare),
            row.PolicyWords, row.WrittenIn, row.Reason, second, row.RecordedAt.InZone(zone).Date);
}
