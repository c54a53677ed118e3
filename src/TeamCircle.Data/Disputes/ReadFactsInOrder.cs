using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Disputes;

/// <summary>Reads <see cref="FactsInOrder"/>: a fixed number of statements, however long the span.</summary>
public sealed class ReadFactsInOrder(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    /// <param name="from">Both days belong to the span.</param>
    public Task<FactsInOrder?> RunAsync(Scope scope, int learner, LocalDate from, LocalDate to, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var head = await (
            from l in db.Learners
            join a in db.Agencies on l.AgencyId equals a.Id
            where l.AgencyId == scope.AgencyId && l.Id == learner
            select new { Name = l.LegalName ?? l.Name, l.Code, Agency = a.Name, a.TimeZone }).SingleOrDefaultAsync(stop);
        if (head is null)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[head.TimeZone];
        var names = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var around = await new FactsAround(db, scope.AgencyId, learner, from, to, zone).ReadAsync(stop);
        var visits = await new FactsOfVisits(db, scope.AgencyId, learner, from, to, zone).ReadAsync(around.RecordHolds, stop);
        var words = (await FamilyWords.ReadAsync(db, scope.AgencyId, learner, new(from, to), [.. visits.Select(v => v.Id)], stop)).ToLookup(w => w.VisitId);
        return new FactsInOrder(
            learner, head.Name, head.Code, head.Agency, from, to, zone,
            Days([.. visits.Select(v => v with { Family = [.. words[v.Id]] })], around.Facts.Concat(words[null].Select(Around))), Delays(visits), names);
    }, stop);

    private static FactAround Around(FamilyWord word) => new(AroundKind.Family, word.On, word.On, $"{word.SaidBy}: {word.Words}", word.At, word.EnteredBy);

    private static IReadOnlyList<FactsDay> Days(IReadOnlyList<FactsVisit> visits, IEnumerable<FactAround> facts)
    {
        var (byDay, around) = (visits.ToLookup(v => v.On), facts.OrderBy(f => f.Kind).ThenBy(f => f.At).ToLookup(f => f.From));
        return [.. byDay.Select(g => g.Key).Union(around.Select(g => g.Key)).Order().Select(day => new FactsDay(day, [.. around[day]], [.. byDay[day].OrderBy(v => v.Start)]))];
    }

    private static IReadOnlyList<DelayOf> Delays(IReadOnlyList<FactsVisit> visits) =>
    [
        .. visits.SelectMany(v => v.Story).Where(e => e is { Act: StoryAct.Entered, Delay: not null })
            .GroupBy(e => e.Entry!.Provider, e => e.Delay!.Value).OrderBy(g => g.Key)
            .Select(g => new DelayOf(g.Key, g.Count(), EntryDelay.Within(g, 50)!.Value, EntryDelay.Within(g, 90)!.Value)),
    ];
}
