using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Quiet;

/// <summary>Which learners are quiet, asked inside the transaction whose answer depends on it.</summary>
public static class QuietLearners
{
    public const string Refusal = "This learner is quiet: nothing new is shared, published or proposed until that ends.";

    public static Task<bool> HasAsync(PortalDb db, int agency, int learner, CancellationToken stop = default) =>
        db.Quiets.AnyAsync(q => q.AgencyId == agency && q.LearnerId == learner && q.EndedAt == null, stop);

    /// <summary>The day, in the agency's zone, on which the learner's quiet was set; null where they are not quiet.</summary>
    public static async Task<LocalDate?> SinceAsync(PortalDb db, int agency, int learner, CancellationToken stop = default) =>
        await (from q in db.Quiets
               join a in db.Agencies on q.AgencyId equals a.Id
               where q.AgencyId == agency && q.LearnerId == learner && q.EndedAt == null
               select new { q.SetAt, a.TimeZone }).SingleOrDefaultAsync(stop) is { } row
            ? row.SetAt.InZone(DateTimeZoneProviders.Tzdb[row.TimeZone]).Date : null;

    /// <summary>Those of the learners in the transaction's reach who are quiet.</summary>
    public static async Task<IReadOnlySet<int>> ReadAsync(PortalDb db, int agency, CancellationToken stop = default) =>
        (await db.Quiets.Where(q => q.AgencyId == agency && q.EndedAt == null).Select(q => q.LearnerId).ToListAsync(stop)).ToHashSet();

    /// <summary>The caller without their quiet learners. From here to the end of the transaction a person's walls hide those too, so that
    /// whatever asks somebody to act, proposes or is carried away knows nothing of them.</summary>
    public static async Task<Caller> LeaveOutAsync(PortalDb db, Caller caller, CancellationToken stop = default)
    {
        var quiet = await ReadAsync(db, caller.AgencyId, stop);
        if (!caller.Learners.Any(quiet.Contains))
            return caller;
        var others = caller with { Standings = [.. caller.Standings.Where(s => !quiet.Contains(s.LearnerId))] };
        var list = "{" + string.Join(',', others.Learners.Select(l => l.ToString(CultureInfo.InvariantCulture))) + "}";
        await db.Database.ExecuteSqlAsync($"select set_config('app.learners', {list}, true)", stop);
        return others;
    }
}
