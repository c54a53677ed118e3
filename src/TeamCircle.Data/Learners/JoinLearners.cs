using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Learners;

/// <summary>A learner as an administrator chooses among them.</summary>
/// <param name="Recorded">Visits, probes and practices on record.</param>
public sealed record JoinChoice(int Id, string Code, string Name, int Recorded);

/// <summary>A learner who was entered twice, and the entry under which all goes on.</summary>
public sealed record Joined(string Code, string Name, string Into, LocalDate On, string By, string Reason);

/// <summary>The two entries, and what stands when they are joined.</summary>
public sealed record JoinPage(JoinChoice Doubled, JoinChoice Stays, JoinSituation Situation);

/// <summary>Joins two entries of one learner: all that was recorded under the one goes over to the other, each row with its change row.</summary>
public sealed class JoinLearners(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        /// <summary>The entry that goes.</summary>
        public int Doubled { get; init; }
        public int Stays { get; init; }

        /// <summary>By service of the entry that goes, the same service of the one that stays; 0 or missing: it goes over as one more.</summary>
        public Dictionary<int, int> Same { get; init; } = [];
        public string? Reason { get; init; }
    }

    /// <param name="Rows">How many rows went over.</param>
    public sealed record Saved(int Rows);

    /// <summary>All learners of the agency that stand for themselves, and those that were joined, the latest first.</summary>
    public Task<(IReadOnlyList<JoinChoice> Choices, IReadOnlyList<Joined> Joined)> ReadAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var joined = await (
            from l in db.Learners
            join o in db.Learners on new { l.AgencyId, Id = l.JoinedTo ?? 0 } equals new { o.AgencyId, o.Id }
            join p in db.People on new { l.AgencyId, Id = l.JoinedBy ?? 0 } equals new { p.AgencyId, p.Id }
            where l.AgencyId == scope.AgencyId
            orderby l.JoinedAt descending
            select new { l, Into = o.Name, By = p.Name }).ToListAsync(stop);
        return ((IReadOnlyList<JoinChoice>)await Choices(db, db.Learners.Where(l => l.AgencyId == scope.AgencyId)).ToListAsync(stop),
            (IReadOnlyList<Joined>)[.. joined.Select(j => new Joined(j.l.Code, j.l.Name, j.Into, j.l.JoinedAt!.Value.InZone(zone).Date, j.By, j.l.JoinedReason!))]);
    }, stop);

    /// <summary>Null where the agency has no two such learners.</summary>
    public Task<JoinPage?> PageAsync(Scope scope, int doubled, int stays, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var both = await Choices(db, db.Learners.Where(l => l.AgencyId == scope.AgencyId && (l.Id == doubled || l.Id == stays))).ToListAsync(stop);
        return both.Count == 2
            ? new JoinPage(both.Single(c => c.Id == doubled), both.Single(c => c.Id == stays), await SituationAsync(db, scope.AgencyId, doubled, stays, stop)) : null;
    }, stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "a learner entered twice", Operation.Of(operation, nameof(JoinLearners), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (input.Doubled == input.Stays || await db.Learners.CountAsync(l => l.AgencyId == agency && (l.Id == input.Doubled || l.Id == input.Stays), stop) != 2)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var same = input.Same.Where(s => s.Value != 0).ToDictionary();
        if (JoinRules.Check(same, input.Reason, await SituationAsync(db, agency, input.Doubled, input.Stays, stop)).ToList() is { Count: > 0 } problems)
            return Outcome<Saved>.Refused(problems);
        int[] was = [.. same.Keys], into = [.. same.Values];
        var (reason, plan) = (input.Reason!.Trim(), await PlanAsync(db, caller, input.Stays, stop));
        var rows = await db.Database.SqlQuery<int>(
            $"select portal.join_learners({input.Doubled}, {input.Stays}, {plan}, {was}, {into}, {reason}) as \"Value\"").SingleAsync(stop);
        var row = await db.Learners.AsTracking().SingleAsync(l => l.AgencyId == agency && l.Id == input.Doubled, stop);
        (row.JoinedTo, row.JoinedAt, row.JoinedBy, row.JoinedReason) = (input.Stays, Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId, reason);
        return Outcome<Saved>.Of(new(rows));
    }

    /// <summary>The plan to which services go over that are none of its own: the one in force, otherwise the latest; null where there is none.</summary>
    private static Task<int?> PlanAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) => db.Plans
        .Where(p => p.AgencyId == caller.AgencyId && p.LearnerId == learner)
        .OrderByDescending(p => p.StartDay <= caller.Today && p.EndDay >= caller.Today).ThenByDescending(p => p.StartDay).Select(p => (int?)p.Id).FirstOrDefaultAsync(stop);

    private static IQueryable<JoinChoice> Choices(PortalDb db, IQueryable<LearnerRow> learners) =>
        from l in learners
        where l.JoinedTo == null
        orderby l.Name, l.Id
        select new JoinChoice(l.Id, l.Code, l.Name, db.Visits.Count(v => v.AgencyId == l.AgencyId && v.LearnerId == l.Id)
            + db.Probes.Count(p => p.AgencyId == l.AgencyId && p.LearnerId == l.Id) + db.Practices.Count(p => p.AgencyId == l.AgencyId && p.LearnerId == l.Id));

    private static async Task<JoinSituation> SituationAsync(PortalDb db, int agency, int doubled, int stays, CancellationToken stop)
    {
        var services = await db.Services.Where(s => s.AgencyId == agency && (s.LearnerId == doubled || s.LearnerId == stays) && s.Live).OrderBy(s => s.Position)
            .Select(s => new { s.LearnerId, Service = new JoinedService(s.Id, s.Code, s.Discipline, s.Kind, new Every(s.EveryUnit, s.EveryCount)) }).ToListAsync(stop);
        var visits = await (
            from v in db.Visits
            from o in db.Visits
            where v.AgencyId == agency && v.LearnerId == doubled && v.Live && o.AgencyId == agency && o.LearnerId == stays && o.Live && o.OnDay == v.OnDay
                && v.During.Overlaps(o.During) && v.TogetherNo != o.TogetherNo
            orderby v.OnDay, v.StartTime
            select new DoubledVisit(v.OnDay, v.StartTime, o.StartTime)).ToListAsync(stop);
        var isEnded = await db.Learners.AnyAsync(l => l.AgencyId == agency && (l.Id == doubled || l.Id == stays) && l.JoinedTo != null, stop)
            || await db.Quiets.AnyAsync(q => q.AgencyId == agency && (q.LearnerId == doubled || q.LearnerId == stays) && q.EndedAt == null, stop);
        return new(isEnded, [.. services.Where(s => s.LearnerId == doubled).Select(s => s.Service)], [.. services.Where(s => s.LearnerId == stays).Select(s => s.Service)], visits);
    }
}
