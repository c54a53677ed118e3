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
        PortalDb db, int agency, LocalDate day, IEnumerable<int> people, IEnumerable<int> learners, CancellationToken stop) =>
        TakeAsync(db, agency, [day], people, learners, stop);

    /// <summary>Several days at once, in one order for everybody.</summary>
    public static Task<int> TakeAsync(
        PortalDb db, int agency, IEnumerable<LocalDate> days, IEnumerable<int> people, IEnumerable<int> learners, CancellationToken stop)
    {
        string[] who = [.. people.Select(p => $"person {p}"), .. learners.Select(l => $"learner {l}")];
        string[] keys = [.. days.SelectMany(d => who.Select(w => string.Create(CultureInfo.InvariantCulture, $"{agency}/{Core.Time.Day.Of(d)}/{w}")))];
        return db.Database.ExecuteSqlAsync(
            $"""
            select pg_advisory_xact_lock(hashtextextended(key, 0))
            from (select distinct key from unnest({keys}) as key order by key) keys
            """, stop);
    }
}
