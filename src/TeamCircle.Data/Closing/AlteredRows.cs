using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Closing;

/// <summary>Finds dated facts of closed counts that are not as the trail of changes left them: somebody altered them past the portal, with the owner's rights.</summary>
internal static class AlteredRows
{
    private static readonly string[] Tables = ["sessions", "probes", "decisions"];

    /// <summary>The first such row, in a sentence without names; null where all are as they were left.</summary>
    /// <remarks>A row that a file brought and nobody changed since has no change of its own, and is not looked at here; what it does to a figure
    /// shows all the same. The moment of recording is left out: its text depends on the server's zone.</remarks>
    public static async Task<string?> FindAsync(PortalDb db, int agency, CancellationToken stop)
    {
        foreach (var table in Tables)
        {
#pragma warning disable EF1002 // a table's name can't be a parameter; these three are our own
            var found = await db.Database.SqlQueryRaw<string>(
                $$"""
                select case when t.id is null then 'Missing: ' else 'Altered: ' end || '{{table}} ' || c.row_key || ' of learner ' || c.learner_id
                    || ', in a closed count: change ' || c.id || ' by person ' || c.person_id || ' left it otherwise, and no change is on record since.' as "Value"
                from (select distinct on (c.row_key) c.* from portal.changes c
                      where c.agency_id = {0} and c.table_name = '{{table}}'
                          and c.learner_id in (select l.learner_id from portal.learner_periods l where l.agency_id = {0} and l.closed_at is not null)
                      order by c.row_key, c.id desc) c
                join portal.learner_periods l on l.agency_id = c.agency_id and l.learner_id = c.learner_id and l.closed_at is not null
                left join portal.{{table}} t on t.agency_id = c.agency_id and t.id::text = c.row_key
                where ((c.after ->> 'on_day')::date between l.first_day and l.last_day or t.on_day between l.first_day and l.last_day)
                    and c.act <> 'delete' and (c.after - 'recorded_at') is distinct from (to_jsonb(t) - 'recorded_at')
                order by c.id limit 1
                """, agency).ToListAsync(stop);
#pragma warning restore EF1002
            if (found.Count > 0)
                return found[0];
        }
        return null;
    }
}
