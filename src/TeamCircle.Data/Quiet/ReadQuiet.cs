using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Quiet;

/// <summary>A learner's quiet as its page shows it.</summary>
/// <param name="Past">Those that ended, the latest first.</param>
public sealed record QuietPage(int LearnerId, string Learner, QuietShown? Standing, IReadOnlyList<QuietShown> Past);

/// <param name="SetOn">In the agency's zone, as <paramref name="EndedOn"/>.</param>
public sealed record QuietShown(
    int Id, string Reason, string NamedBy, string SetBy, LocalDateTime SetOn, string? EndedBy, LocalDateTime? EndedOn, string? EndedReason, int Version);

/// <summary>Reads a learner's quiet with what led to it.</summary>
public sealed class ReadQuiet(Portal portal)
{
    /// <summary>The caller without their quiet learners: for pages and mails that ask somebody to act.</summary>
    public Task<Caller> LeaveOutAsync(Caller caller, CancellationToken stop = default) =>
        caller.Learners.Count == 0 ? Task.FromResult(caller) : portal.ReadAsync(Scope.Of(caller), db => QuietLearners.LeaveOutAsync(db, caller, stop), stop);

    /// <summary>Those of the scope's learners who are quiet.</summary>
    public Task<IReadOnlySet<int>> LearnersAsync(Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => QuietLearners.ReadAsync(db, scope.AgencyId, stop), stop);

    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<QuietPage?> RunAsync(Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var rows = await (
            from q in db.Quiets
            join setter in db.People on new { q.AgencyId, Id = q.SetBy } equals new { setter.AgencyId, setter.Id }
            where q.AgencyId == scope.AgencyId && q.LearnerId == learner
            orderby q.SetAt descending
            select new { Row = q, By = setter.Name, Ended = db.People.Where(p => p.AgencyId == q.AgencyId && p.Id == q.EndedBy).Select(p => p.Name).FirstOrDefault() })
            .ToListAsync(stop);
        List<QuietShown> shown = [.. rows.Select(r => new QuietShown(
            r.Row.Id, r.Row.Reason, r.Row.NamedBy, r.By, r.Row.SetAt.InZone(zone).LocalDateTime, r.Ended, r.Row.EndedAt?.InZone(zone).LocalDateTime, r.Row.EndedReason, r.Row.Version))];
        return new QuietPage(learner, name, shown.Find(q => q.EndedOn is null), [.. shown.Where(q => q.EndedOn is not null)]);
    }, stop);
}
