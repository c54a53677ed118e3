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
            select new { l.Name, l.Code, Agency = a.Name, a.TimeZone }).SingleOrDefaultAsync(stop);
        if (head is null)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[head.TimeZone];
        var names = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var around = await new FactsAround(db, scope.AgencyId, learner, from, to, zone).ReadAsync(stop);
        var visits = await new FactsOfVisits(db, scope.AgencyId, learner, from, to, zone).ReadAsync(around.RecordHolds, stop);
        var days = visits.Select(v => v.On).Concat(around.ByDay.Select(g => g.Key)).Distinct().Order()
            .Select(day => new FactsDay(day, [.. around.ByDay[day]], [.. visits.Where(v => v.On == day).OrderBy(v => v.Start)]));
        return new FactsInOrder(learner, head.Name, head.Code, head.Agency, from, to, zone, [.. days], Delays(visits), names);
    }, stop);

    private static IReadOnlyList<DelayOf> Delays(IReadOnlyList<FactsVisit> visits) =>
    [
        .. visits.SelectMany(v => v.Story).Where(e => e is { Act: StoryAct.Entered, Entry.Replaces: null })
            .GroupBy(e => e.Entry!.Provider, e => e.Delay!.Value).OrderBy(g => g.Key)
            .Select(g => new DelayOf(g.Key, g.Count(), EntryDelay.Within(g, 50)!.Value, EntryDelay.Within(g, 90)!.Value)),
    ];
}
