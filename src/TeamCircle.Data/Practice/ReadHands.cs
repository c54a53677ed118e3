using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Practice;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Practice;

/// <summary>Reads one routine in many hands.</summary>
public sealed class ReadHands(Portal portal)
{
    /// <summary>Null where the scope reaches no such routine.</summary>
    public Task<HandsPage?> RunAsync(Scope scope, int routine, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await NamedRoutine.FindAsync(db, scope.AgencyId, routine, stop) is not { } found)
            return null;
        var facts = await PractisedFacts.OfRoutineAsync(db, scope.AgencyId, found.LearnerId, routine, stop);
        List<PractisedOnce> practices = [.. facts.Practices.Where(p => facts.People.ContainsKey(p.Person))];
        List<PractisedTrial> trials = [.. facts.Trials.Where(t => facts.People.ContainsKey(t.In.Person))];
        var standIns = await NewPeople.Of(db, scope.AgencyId).Where(n => n.LearnerId == found.LearnerId).Select(n => new { n.PersonId, n.FromDay, n.ToDay }).ToListAsync(stop);
        int OfNewPerson(int person) => practices.Count(p => p.Person == person && standIns.Exists(n => n.PersonId == person && n.FromDay <= p.Day && n.ToDay >= p.Day));
        var observed = await ObservedAsync(db, scope.AgencyId, routine, facts.Versions, stop);
        return new HandsPage(
            routine, found.LearnerId, found.Learner, found.Name, [.. HandsReport.Of(practices, trials).Select(h => new HandsNamed(facts.People[h.Person], h, OfNewPerson(h.Person)))],
            [.. observed.SelectMany(trials => trials)], observed.Count);
    }, stop);

    /// <summary>For each time that a practice was scored again, its trials as both scored them.</summary>
    private static async Task<IReadOnlyList<IReadOnlyList<TrialScoredTwice>>> ObservedAsync(
        PortalDb db, int agency, int routine, IReadOnlyList<VersionFact> versions, CancellationToken stop)
    {
        var pairs = await (
            from second in db.Practices
            join first in db.Practices on new { second.AgencyId, second.LearnerId, Id = second.Observes } equals new { first.AgencyId, first.LearnerId, Id = (Guid?)first.Id }
            where second.AgencyId == agency && second.RoutineId == routine && second.Live && first.Live
            orderby first.StartedAt, second.StartedAt
            select new { First = first.Record, first.VersionId, Second = second.Record, SecondVersionId = second.VersionId }).ToListAsync(stop);
        var steps = versions.ToDictionary(v => v.Id, v => AgreedStep.Of(v.Content));
        return [.. pairs.Where(p => steps.ContainsKey(p.VersionId) && steps.ContainsKey(p.SecondVersionId)).Select(p => ScoredTwice.Of(
            PracticeFigures.Of(PracticeJson.Read(p.First), steps[p.VersionId]).Trials, PracticeFigures.Of(PracticeJson.Read(p.Second), steps[p.SecondVersionId]).Trials))];
    }
}
