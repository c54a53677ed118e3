using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Beginning;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;

namespace TeamCircle.Data.Beginning;

/// <summary>Reads how far an agency has come, for those who set it up. Counts only: no learner's record is opened.</summary>
public sealed class ReadBeginning(Portal portal, AccountDb accounts, TimeProvider clock)
{
    private const string Audit = "GET /Commitments/Audit";

    /// <returns>Null for anybody but administrators and directors.</returns>
    public async Task<BeginningFacts?> RunAsync(Caller caller, CancellationToken stop)
    {
        if (!caller.Is(Role.Administrator) && !caller.Is(Role.Director))
            return null;
        var (staff, facts) = await portal.ReadAsync(
            Scope.WholeAgency(caller, "setting up"), async db => (await StaffAsync(db, caller, stop), await FactsAsync(db, caller.AgencyId, stop)), stop);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var joined = await accounts.Memberships.CountAsync(m => m.AgencyId == caller.AgencyId && staff.Contains(m.PersonId), stop);
        var invited = await accounts.Invitations
            .Where(i => i.AgencyId == caller.AgencyId && i.Kind == InvitationKind.Join && i.UsedAt == null && i.EndsAt > now && staff.Contains(i.PersonId!.Value))
            .Where(i => !accounts.Memberships.Any(m => m.AgencyId == caller.AgencyId && m.PersonId == i.PersonId))
            .Select(i => i.PersonId).Distinct().CountAsync(stop);
        return facts with { Staff = staff.Count, StaffJoined = joined, StaffInvited = invited };
    }

    private static Task<List<int>> StaffAsync(PortalDb db, Caller caller, CancellationToken stop) => db.People
        .Where(p => p.AgencyId == caller.AgencyId && p.EndedAt == null && db.PersonRoles.Any(r => r.AgencyId == caller.AgencyId && r.PersonId == p.Id
            && r.Role != Role.Family && r.Role != Role.Reviewer && r.Role != Role.Terminal && (r.ToDay == null || r.ToDay >= caller.Today)))
        .Select(p => p.Id).ToListAsync(stop);

    private static Task<BeginningFacts> FactsAsync(PortalDb db, int agency, CancellationToken stop) => db.Agencies.Where(a => a.Id == agency).Select(a => new BeginningFacts(
        db.Learners.Count(l => l.AgencyId == agency && l.JoinedTo == null),
        db.Services.Where(s => s.AgencyId == agency).Select(s => s.LearnerId).Distinct().Count(),
        0,
        db.People.Count(p => p.AgencyId == agency && p.EndedAt == null
            && db.PersonRoles.Any(r => r.AgencyId == agency && r.PersonId == p.Id && r.Role == Role.Family)
            && !db.PersonRoles.Any(r => r.AgencyId == agency && r.PersonId == p.Id && r.Role != Role.Family)),
        0,
        0,
        db.Terms.Count(t => t.AgencyId == agency && t.Live),
        db.Terms.Where(t => t.AgencyId == agency && t.Live).Max(t => (LocalDate?)t.LastDay),
        db.Closures.Count(c => c.AgencyId == agency && c.Live),
        db.Periods.Count(p => p.AgencyId == agency && p.Live),
        db.Periods.Where(p => p.AgencyId == agency && p.Live).Max(p => (LocalDate?)p.EndDay),
        db.Services.Count(s => s.AgencyId == agency),
        db.Accesses.Any(x => x.AgencyId == agency && x.Page == Audit && !x.Refused && x.At >= db.Plans.Where(p => p.AgencyId == agency).Min(p => p.RecordedAt)))).SingleAsync(stop);
}
