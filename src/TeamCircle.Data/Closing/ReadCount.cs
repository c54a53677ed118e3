using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>Reads a learner's count for one reporting period.</summary>
public sealed class ReadCount(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner, or the agency has no such period.</summary>
    public Task<CountPage?> RunAsync(Caller caller, Scope scope, int learner, int period, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await CountWork.ReadAsync(db, caller.AgencyId, learner, period, caller.Today, stop) is not { } count)
            return null;
        var editions = await EditionsAsync(db, count, stop);
        var obstacles = await ReadObstacles.RunAsync(db, count, stop);
        var isClosed = await db.LearnerPeriods.AnyAsync(l => l.AgencyId == caller.AgencyId && l.LearnerId == learner && l.PeriodId == period && l.ClosedAt != null, stop);
        return new CountPage(learner, count.Names.Learners[learner].Name, await LedgerAsync(db, count, stop))
        {
            // A period that still runs is only looked at: its figures also rest on how full the learner's days to come are, which is never sealed.
            Mark = count.AsOf > count.Period.EndDay ? Mark(count, obstacles.Select(o => o.Obstacle)) : null,
            Obstacles = obstacles,
            Editions = editions,
            IsClosed = isClosed,
            Sealed = isClosed && editions.Count > 0 ? await SealedAsync(db, count, editions[0].Id, stop) : [],
            Reopening = await ReopeningAsync(db, count, stop),
            Manages = caller.Manages(learner),
            Credential = await db.Statements.Where(s => s.AgencyId == caller.AgencyId && s.SealedBy == caller.PersonId)
                .OrderByDescending(s => s.SealedAt).Select(s => s.Credential).FirstOrDefaultAsync(stop),
        };
    }, stop);

    /// <summary>The closed count that holds a day of the learner; null where no closed one does, or the scope reaches no such learner.</summary>
    /// <remarks>Where a week reaches over the end of a closed period, two counts can hold its days: the day is the one's in whose period it lies.</remarks>
    public async Task<CountPage?> ClosedOnAsync(Caller caller, Scope scope, int learner, LocalDate day, CancellationToken stop = default)
    {
        var period = await portal.ReadAsync(scope, db => (
            from l in db.LearnerPeriods
            join p in db.Periods on new { l.AgencyId, Id = l.PeriodId } equals new { p.AgencyId, p.Id }
            where l.AgencyId == caller.AgencyId && l.LearnerId == learner && l.ClosedAt != null && l.FirstDay <= day && l.LastDay >= day
            orderby p.StartDay <= day descending, p.StartDay descending
            select (int?)p.Id).FirstOrDefaultAsync(stop), stop);
        return period is { } id ? await RunAsync(caller, scope, learner, id, stop) : null;
    }

    /// <summary>What was logged on the days that a closed count holds, the oldest first; empty for an open one.</summary>
    public Task<List<CountVisit>> VisitsAsync(Caller caller, Scope scope, int learner, int period, CancellationToken stop = default) => portal.ReadAsync(scope, db => (
        from l in db.LearnerPeriods
        join s in db.Sessions on new { l.AgencyId, l.LearnerId } equals new { s.AgencyId, s.LearnerId }
        where l.AgencyId == caller.AgencyId && l.LearnerId == learner && l.PeriodId == period && l.ClosedAt != null
            && s.Live && s.OnDay >= l.FirstDay && s.OnDay <= l.LastDay
        orderby s.OnDay, s.StartTime, s.Id
        select new CountVisit(s.VisitId, s.OnDay, s.ServiceId, s.ProviderId)).ToListAsync(stop), stop);

    /// <summary>SHA-256 in hexadecimal over what would be sealed and what stands in the way: it changes with every figure and every obstacle.</summary>
    internal static string Mark(CountWork count, IEnumerable<Obstacle> obstacles)
    {
        var lines = count.Seal().Select(l => l.Inputs + l.Answer);
        var left = obstacles.Select(o => JsonSerializer.Serialize(o, StrictJson.Options));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', lines.Concat(left)))));
    }

    private static async Task<LedgerPage> LedgerAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var ids = count.Lines.SelectMany(l => count.Facts.DecisionIds(l.Index).ToArray()).Distinct().ToList();
        var decisions = await db.Decisions.Where(d => d.AgencyId == count.Rules.Agency.Id && ids.Contains(d.Id)).ToDictionaryAsync(d => d.Id, stop);
        return new(count.Rules, count.Period, count.AsOf, count.Names,
            [.. count.Lines.Select(l => new LedgerLine(l.Line, l.Working, [], [], [.. count.Facts.DecisionIds(l.Index).ToArray().Select(id => decisions[id])], []))],
            count.Rules.Periods);
    }

    private static async Task<IReadOnlyList<LineFigures>> SealedAsync(PortalDb db, CountWork count, int statement, CancellationToken stop)
    {
        var rows = await db.SealedLines.Where(l => l.AgencyId == count.Rules.Agency.Id && l.LearnerId == count.LearnerId && l.StatementId == statement)
            .OrderBy(l => l.Position).Select(l => new { l.ServiceId, l.GoalId, l.OwnerId, l.Answer }).ToListAsync(stop);
        return [.. rows.Select(row =>
        {
            var answer = JsonSerializer.Deserialize<JsonElement>(row.Answer);
            int Figure(string name) => answer.GetProperty(name).GetInt32();
            return new LineFigures(
                count.Facts.Lines.FirstOrDefault(l => l.Id == (row.ServiceId ?? row.GoalId) && l.IsProbes == row.GoalId.HasValue && l.OwnerId == row.OwnerId),
                Figure("due"), Figure("given"), Figure("notOwed"), Figure("lack"), Figure("undecided"),
                Enum.Parse<Status>(answer.GetProperty("status").GetString()!, ignoreCase: true));
        })];
    }

    private static async Task<IReadOnlyList<StatementEdition>> EditionsAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var zone = Zone(count);
        var rows = await db.Statements.Where(s => s.AgencyId == count.Rules.Agency.Id && s.LearnerId == count.LearnerId && s.PeriodId == count.Period.Id)
            .OrderByDescending(s => s.Edition).Select(s => new { s.Id, s.Edition, s.SealedAt, s.SealedBy, s.Credential, s.Hash, s.Reason, s.ReopenedBy, s.LeftStanding })
            .ToListAsync(stop);
        return [.. rows.Select(s => new StatementEdition(
            s.Id, s.Edition, s.SealedAt.InZone(zone).LocalDateTime, count.Names.Person(s.SealedBy), s.Credential, s.Hash, s.Reason,
            s.ReopenedBy is { } by ? count.Names.Person(by) : null, JsonSerializer.Deserialize<LeftStanding[]>(s.LeftStanding, StrictJson.Options)!))];
    }

    private static async Task<ReopeningShown?> ReopeningAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var zone = Zone(count);
        var row = await db.Reopenings.Where(r => r.AgencyId == count.Rules.Agency.Id && r.LearnerId == count.LearnerId && r.PeriodId == count.Period.Id)
            .OrderByDescending(r => r.Id).FirstOrDefaultAsync(stop);
        return row is null ? null : new(
            row.Id, row.Version, count.Names.Person(row.AskedBy), row.AskedAt.InZone(zone).LocalDateTime, row.Reason,
            row.AnsweredBy is { } by ? count.Names.Person(by) : null, row.AnsweredAt?.InZone(zone).LocalDateTime, row.Granted, row.Answer);
    }

    private static DateTimeZone Zone(CountWork count) => DateTimeZoneProviders.Tzdb[count.Rules.Agency.TimeZone];
}
