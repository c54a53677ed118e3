using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Closing;

/// <summary>The learners' counts of the reporting periods that a change touches: locked, so that none closes meanwhile.</summary>
internal static class ClosedCounts
{
    /// <summary>A problem where one of the counts is closed: what counts in it can't change until it is restated.</summary>
    /// <param name="learner">Null: the counts of all learners.</param>
    /// <param name="days">The days whose meaning changes; both ends belong to each range.</param>
    public static async Task<Problem?> FindAsync(
        PortalDb db, int agency, int? learner, IReadOnlyList<DateInterval> days, CancellationToken stop)
    {
        var (first, last) = (days.Select(d => d.Start).ToArray(), days.Select(d => d.End).ToArray());
        var closed = await db.Database.SqlQuery<int>(
            $"""
            select count(*) filter (where c.closed_at is not null)::int as "Value" from (
                select l.closed_at from portal.learner_periods l
                join portal.periods p on p.agency_id = l.agency_id and p.id = l.period_id and p.live
                where l.agency_id = {agency} and ({learner}::int is null or l.learner_id = {learner})
                  and exists (select 1 from unnest({first}::date[], {last}::date[]) as d(a, b) where d.a <= p.end_day and p.start_day <= d.b)
                order by l.learner_id, l.period_id for share of l) c
            """).SingleAsync(stop);
        return closed switch
        {
            0 => null,
            1 when learner is not null => new("", "The count of this reporting period is closed. Nothing that counts in it can change until the count is restated."),
            1 => new("", "A learner's count of these reporting periods is closed. Nothing that counts in it can change until it is restated."),
            _ => new("", string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{closed} counts of these reporting periods are closed. Nothing that counts in them can change until they are restated.")),
        };
    }
}
