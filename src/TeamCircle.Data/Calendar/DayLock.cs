using System.Globalization;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Calendar;

/// <summary>Lets one transaction at a time put visits into a day of a person or a learner.</summary>
/// <remarks>
/// The exclusion constraints decide; but two inserts that wait for each other there end in a deadlock, which tells nobody
/// anything. Whoever takes this lock first gets the constraint's own answer.
/// </remarks>
internal static class DayLock
{
    public static Task<int> TakeAsync(
        PortalDb db, int agency, LocalDate day, IEnumerable<int> people, IEnumerable<int> learners, CancellationToken stop)
    {
        var at = string.Create(CultureInfo.InvariantCulture, $"{agency}/{Core.Time.Day.Of(day)}/");
        string[] keys = [.. people.Select(p => $"{at}person {p}"), .. learners.Select(l => $"{at}learner {l}")];
        return db.Database.ExecuteSqlAsync(
            $"""
            select pg_advisory_xact_lock(hashtextextended(key, 0))
            from (select distinct key from unnest({keys}) as key order by key) keys
            """, stop);
    }
}
