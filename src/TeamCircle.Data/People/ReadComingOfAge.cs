using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>What a learner's case manager knows and does about the learner's coming of age.</summary>
/// <param name="Day">The day on which rights pass; null where nobody has entered the day of birth.</param>
/// <param name="Seats">The family's, today's and those to come.</param>
public sealed record ComingOfAgePage(int LearnerId, string Learner, MajorityPolicy Policy, LocalDate? BornOn, LocalDate? ToldOn, string? ToldWords, int Version, LocalDate? Day, IReadOnlyList<FamilySeat> Seats);

/// <param name="IsPaused">Whether it is paused today.</param>
public sealed record FamilySeat(int Id, int Version, string Person, LocalDate FromDay, LocalDate? ToDay, AdultBasis? Basis, string? Paper, bool IsPaused);

/// <summary>What waits for the case manager of a learner who comes of age.</summary>
/// <param name="IsToDecide">Whether seats are to be decided; else the learner and the parents are to be told.</param>
public sealed record AgeWaits(int LearnerId, LocalDate Day, bool IsToDecide);

/// <summary>Reads days of birth: for the learner's case manager alone.</summary>
public sealed class ReadComingOfAge(Portal portal)
{
    /// <summary>Null for whoever is not the learner's case manager.</summary>
    public async Task<ComingOfAgePage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => !caller.Manages(learner) ? null : await portal.ReadAsync(scope, async db =>
    {
        var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleAsync(stop);
        var policy = await Policies(db, caller.AgencyId).SingleAsync(stop);
        var birth = await db.Births.SingleOrDefaultAsync(b => b.AgencyId == caller.AgencyId && b.LearnerId == learner, stop);
        var seats = await (
            from r in db.Relations
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Kind == Relation.Family && (r.ToDay == null || r.ToDay >= caller.Today)
            orderby p.Name, r.FromDay
            select new { Row = r, p.Name }).ToListAsync(stop);
        return new ComingOfAgePage(
            learner, name, policy, birth?.BornOn, birth?.ToldOn, birth?.ToldWords, birth?.Version ?? 0, birth is null ? null : ComingOfAge.Day(birth.BornOn, policy.Years),
            [.. seats.Select(s => new FamilySeat(
                s.Row.Id, s.Row.Version, s.Name, s.Row.FromDay, s.Row.ToDay, s.Row.AdultBasis, s.Row.AdultPaper, ComingOfAge.IsPaused(birth?.BornOn, policy, s.Row.AdultBasis, caller.Today)))]);
    }, stop);

    /// <summary>Of the learners whom the caller manages: who is to be told, and whose family's seats are to be decided; the earliest day first.</summary>
    internal static async Task<IReadOnlyList<AgeWaits>> WaitingAsync(PortalDb db, Together all, Caller caller)
    {
        var managed = caller.Learners.Where(caller.Manages).ToList();
        if (managed.Count == 0)
            return [];
        var policies = all.ListAsync(Policies(db, caller.AgencyId));
        var births = all.ListAsync(db.Births.Where(b => b.AgencyId == caller.AgencyId && managed.Contains(b.LearnerId)).Select(b => new
        {
            b.LearnerId,
            b.BornOn,
            b.ToldOn,
            Open = db.Relations.Any(r => r.AgencyId == b.AgencyId && r.LearnerId == b.LearnerId && r.Kind == Relation.Family && r.AdultBasis == null
                && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)),
        }));
        var policy = (await policies).Single();
        return [.. (await births).Select(b => (Born: b, b.Open, Day: ComingOfAge.Day(b.BornOn, policy.Years)))
            .SelectMany(b => new[] { (b.Day, b.Born.LearnerId, Decide: false, Due: b.Day > caller.Today && ComingOfAge.IsNoticeDue(b.Born.BornOn, policy.Years, b.Born.ToldOn, caller.Today)),
                (b.Day, b.Born.LearnerId, Decide: true, Due: b.Day <= caller.Today && b.Open && policy.Pauses) })
            .Where(w => w.Due).OrderBy(w => w.Day).Select(w => new AgeWaits(w.LearnerId, w.Day, w.Decide))];
    }

    private static IQueryable<MajorityPolicy> Policies(PortalDb db, int agency) =>
        db.Agencies.Where(a => a.Id == agency).Select(a => new MajorityPolicy(a.MajorityAge, a.MajorityPauses));
}
