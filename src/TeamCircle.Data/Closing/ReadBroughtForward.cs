using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Closing;

/// <summary>Everything that was brought forward for a learner, and the awards of compensatory services, as of today.</summary>
/// <param name="People">Names by person.</param>
/// <param name="Visits">The visits behind payments: by service, day, and the day that the make-up names.</param>
/// <param name="TakenBack">Awards that were entered wrongly and taken back.</param>
public sealed record BroughtForwardPage(
    int Learner, string Name, LocalDate Today, IReadOnlyList<DebtOnRecord> Debts, IReadOnlyList<AwardOnRecord> Awards, IReadOnlyList<AwardRow> TakenBack,
    IReadOnlyDictionary<int, string> People, ILookup<(int Service, LocalDate Day, LocalDate Pays), PayingVisit> Visits,
    IReadOnlyDictionary<int, (string Code, Discipline Discipline)> Services)
{
    /// <summary>The visit behind a payment; null for a probe.</summary>
    public PayingVisit? VisitOf(DebtOnRecord debt, DebtPayment payment)
    {
        var entry = debt.Working.GivenEntries.First(e => e.Index == payment.Entry).Entry;
        return debt.Row.ServiceId is { } service ? Visits[(service, payment.Day, Core.Time.Day.Date(entry.Pays))].FirstOrDefault(v => v.Minutes == entry.Amount) : null;
    }
}

public sealed record PayingVisit(Guid Id, int ProviderId, int Minutes);

/// <summary>What people need before them to decide about something brought forward.</summary>
/// <param name="Explained">What one person alone may decide not owed.</param>
/// <param name="Staff">Who of the agency can have taken part.</param>
/// <param name="HasDirector">Whether the second person has to be a director.</param>
public sealed record DebtPage(
    string Learner, LocalDate Today, DebtOnRecord Debt, IReadOnlyList<MissedOnRecord> Missed, DebtAmount Explained,
    IReadOnlyDictionary<int, string> People, IReadOnlyList<Colleague> Staff, bool HasDirector);

/// <summary>What a form for an award offers to choose from.</summary>
public sealed record AwardChoices(string Learner, LocalDate Today, IReadOnlyList<(int Id, string Code, Discipline Discipline)> Services, IReadOnlyList<Colleague> Team);

/// <summary>Reads what was brought forward for a learner, and the awards.</summary>
public sealed class ReadBroughtForward(Portal portal, TimeProvider clock)
{
    /// <summary>Null where the scope does not reach the learner.</summary>
    public Task<BroughtForwardPage?> RunAsync(Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var agency = scope.AgencyId;
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var (debts, today) = await DebtSituation.AllAsync(db, agency, learner, clock, stop);
        var paying = await db.Sessions.Where(s => s.AgencyId == agency && s.LearnerId == learner && s.Live && s.PaysOn != null && s.Outcome == Core.Sessions.VisitOutcome.Given)
            .OrderBy(s => s.StartTime).Select(s => new { s.ServiceId, s.OnDay, Pays = s.PaysOn!.Value, s.VisitId, s.ProviderId, s.Credited }).ToListAsync(stop);
        return new BroughtForwardPage(
            learner, name, today, debts, await LearnerAwards.ReadAsync(db, agency, learner, today, stop),
            await db.Awards.AsNoTracking().Where(a => a.AgencyId == agency && a.LearnerId == learner && !a.Live).OrderBy(a => a.Id).ToListAsync(stop),
            await NamesAsync(db, agency, stop), paying.ToLookup(s => (s.ServiceId, s.OnDay, s.Pays), s => new PayingVisit(s.VisitId, s.ProviderId, s.Credited)),
            await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner).ToDictionaryAsync(s => s.Id, s => (s.Code, s.Discipline), stop));
    }, stop);

    /// <summary>Null where the caller is not the learner's case manager, or there is no such debt.</summary>
    public Task<DebtPage?> DebtAsync(Caller caller, int learner, int debt, CancellationToken stop = default) => portal.ReadAsync(Scope.Of(caller), async db =>
    {
        if (!caller.IsStaff || !caller.Manages(learner) || await DebtSituation.ReadAsync(db, caller.AgencyId, learner, debt, clock, stop) is not { } situation)
            return null;
        var names = await NamesAsync(db, caller.AgencyId, stop);
        var people = await DecisionPeople.ReadAsync(db, caller.AgencyId, situation.Today, stop);
        var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleAsync(stop);
        return new DebtPage(
            name, situation.Today, situation.Debt, [.. situation.Missed.Select(m => new MissedOnRecord(m, names[m.ProviderId]))], situation.Explained,
            names, [.. people.Staff.Select(s => new Colleague(s.Key, s.Value))], people.Directors.Count > 0);
    }, stop);

    /// <summary>Null where the caller is not the learner's case manager.</summary>
    public Task<AwardChoices?> ChoicesAsync(Caller caller, int learner, CancellationToken stop = default) => portal.ReadAsync(Scope.Of(caller), async db =>
    {
        if (!caller.IsStaff || !caller.Manages(learner))
            return null;
        var agency = caller.AgencyId;
        var name = await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleAsync(stop);
        var services = await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner).OrderBy(s => s.Position)
            .Select(s => new { s.Id, s.Code, s.Discipline }).ToListAsync(stop);
        var team = await (
            from r in db.Relations
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && r.LearnerId == learner && r.Live && p.EndedAt == null && r.Kind != Relation.Family && r.Kind != Relation.Reviewer
            orderby p.Name
            select new { p.Id, p.Name }).Distinct().ToListAsync(stop);
        return new AwardChoices(name, caller.Today, [.. services.Select(s => (s.Id, s.Code, s.Discipline))],
            [.. team.OrderBy(t => t.Name, StringComparer.Ordinal).Select(t => new Colleague(t.Id, t.Name))]);
    }, stop);

    private static Task<Dictionary<int, string>> NamesAsync(PortalDb db, int agency, CancellationToken stop) =>
        db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
}
