using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Finding;

/// <summary>The learners whose pages somebody opened last, from the record of access that is kept anyhow; only those of their teams of today.</summary>
public sealed class ReadRecent(Portal portal)
{
    /// <summary>So many at most.</summary>
    public const int Most = 6;

    /// <summary>As far back as it looks: opened pages, not learners.</summary>
    private const int PagesBack = 200;

    /// <summary>The last opened first; empty for somebody on no team.</summary>
    public async Task<IReadOnlyList<NamedId>> RunAsync(Caller caller, CancellationToken stop = default)
    {
        var own = caller.AsTeam();
        return own.Standings.Count == 0 ? [] : await portal.ReadAsync<IReadOnlyList<NamedId>>(Scope.Of(own), async db => await db.Database.SqlQuery<NamedId>(
            $"""
            select l.id, l.name from (
                select learner_ids[1] as learner, max(id) as last from (
                    select a.id, a.learner_ids from portal.accesses a
                    where a.agency_id = {caller.AgencyId} and a.person_id = {caller.PersonId} and not a.refused and cardinality(a.learner_ids) = 1 and not a.whole_agency
                    order by a.id desc limit {PagesBack}) pages
                group by 1) opened
                join portal.learners l on l.agency_id = {caller.AgencyId} and l.id = opened.learner and l.joined_to is null
            order by opened.last desc limit {Most}
            """).ToListAsync(stop), stop);
    }
}
