using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.History;

namespace TeamCircle.Data.Closing;

/// <summary>What the case manager says when a count is closed or restated.</summary>
/// <param name="Words">The word on each obstacle that is left standing, by <see cref="Obstacle.Key"/>.</param>
internal sealed record Signing(int Learner, int Period, string? Credential, IReadOnlyDictionary<string, string?> Words);

/// <summary>Why there is another edition.</summary>
/// <param name="ReopenedBy">The second person, where the count was open again meanwhile.</param>
internal sealed record AnotherEdition(string Reason, int? ReopenedBy);

/// <summary>Seals a learner's count inside an open transaction: the lines, what stands beside them, and the row that refuses writes.</summary>
public sealed class SealStatement(TimeProvider clock, SealChanges seal)
{
    /// <summary>Before the transaction: seals the trail of changes, so that the statement names a block that holds what it rests on.</summary>
    internal Task<int> BeforeAsync(Caller caller, CancellationToken stop) => seal.RunAsync(caller.AgencyId, stop);

    /// <summary>Locks the learner's counts: from here to the end of the transaction nobody else writes what bears on them.</summary>
    /// <returns>The count's own row; null where the caller reaches no such learner, or the agency has no such period.</returns>
    internal static async Task<LearnerPeriodRow?> LockAsync(PortalDb db, Caller caller, int learner, int period, CancellationToken stop)
    {
        await db.Database.ExecuteSqlAsync($"select portal.lock_counts({learner})", stop);
        return await db.LearnerPeriods.AsTracking().SingleOrDefaultAsync(l => l.AgencyId == caller.AgencyId && l.LearnerId == learner && l.PeriodId == period, stop);
    }

    /// <summary>Reads the count as it stands and seals it, or says what stands in the way.</summary>
    /// <param name="row">From <see cref="LockAsync"/>.</param>
    /// <param name="mark">What was read (<see cref="ReadCount.Mark"/>); null where the act itself changes what is sealed.</param>
    /// <param name="another">Null for the first edition.</param>
    internal async Task<Outcome<StatementRow>> RunAsync(
        PortalDb db, Caller caller, LearnerPeriodRow row, Signing signing, string? mark, AnotherEdition? another, CancellationToken stop)
    {
        // A count that is sealed anew is worked out without what its earlier edition brought forward.
        await OpenDebts.WithdrawAsync(db, caller.AgencyId, signing.Learner, signing.Period, stop);
        if (await CountWork.ReadAsync(db, caller.AgencyId, signing.Learner, signing.Period, caller.Today, stop) is not { } count)
            return Outcome<StatementRow>.Refused(Problem.NotFound);
        Obstacle[] obstacles = [.. (await ReadObstacles.RunAsync(db, count, stop)).Select(o => o.Obstacle)];
        Problem[] problems = [.. ClosingRules.Check(caller.Today, count.Period.EndDay, obstacles, signing.Words, signing.Credential)];
        if (problems.Length > 0)
            return Outcome<StatementRow>.Refused(problems);
        if (mark is not null && mark != ReadCount.Mark(count, obstacles))
            return Outcome<StatementRow>.Refused("", "The count has changed since you opened this page. Read it again before you sign.");
        var statement = await StatementAsync(db, caller, count, stop);
        (statement.Credential, statement.LeftStanding) = (signing.Credential!.Trim(), CanonicalJson.Of(ClosingRules.Left(obstacles, signing.Words)));
        (statement.Reason, statement.ReopenedBy) = (another?.Reason, another?.ReopenedBy);
        var (lines, details) = (count.Seal(), await count.DetailsAsync(db, stop));
        statement.Facts = CanonicalJson.Of(
            await new ReadStatementFacts(db, count.Facts, count.At, count.Names).RunAsync(count.LearnerId, count.Period, details, caller.PersonId, stop));
        statement.Hash = statement.Sealed(lines).Hash();
        db.Add(statement);
        (row.ClosedAt, row.ClosedBy, row.FirstDay, row.LastDay) = (statement.SealedAt, caller.PersonId, count.Days.Start, count.Days.End);
        await db.SaveChangesAsync(stop);
        db.AddRange(lines.Select(l => Row(statement, l)));
        await OpenDebts.RunAsync(db, count.Period, count.LearnerId, details, stop);
        return Outcome<StatementRow>.Of(statement);
    }

    private async Task<StatementRow> StatementAsync(PortalDb db, Caller caller, CountWork count, CancellationToken stop)
    {
        var before = await db.Statements.Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == count.LearnerId && s.PeriodId == count.Period.Id)
            .OrderByDescending(s => s.Edition).Select(s => new { s.Id, s.Edition }).FirstOrDefaultAsync(stop);
        var block = await db.Blocks.Where(b => b.AgencyId == caller.AgencyId).OrderByDescending(b => b.Id).Select(b => b.Hash).FirstOrDefaultAsync(stop);
        return new()
        {
            AgencyId = caller.AgencyId,
            LearnerId = count.LearnerId,
            PeriodId = count.Period.Id,
            Edition = (before?.Edition ?? 0) + 1,
            SealedBy = caller.PersonId,
            SealedAt = Microsecond.Now(clock),
            Credential = "",
            Meaning = ClosingRules.Meaning,
            Rules = SealedStatement.RulesVersion,
            Policy = CanonicalJson.Of(SealedPolicy.Of(count.Rules.PolicyOn(count.Period.EndDay))),
            AsOf = count.AsOf,
            Facts = "{}",
            LeftStanding = "[]",
            Hash = "",
            BlockHash = block is null ? null : Convert.ToHexStringLower(block),
            RestatesId = before?.Id,
        };
    }

    private static SealedLineRow Row(StatementRow statement, SealedLine line) => new()
    {
        AgencyId = statement.AgencyId,
        LearnerId = statement.LearnerId,
        StatementId = statement.Id,
        Position = line.Position,
        ServiceId = line.Service,
        GoalId = line.Goal,
        OwnerId = line.Owner,
        Inputs = line.Inputs,
        Answer = line.Answer,
    };
}

/// <summary>The policy in force on the last day of a sealed period.</summary>
/// <param name="Words">The policy in the agency's own words; null where it has none, or counts by the usual one.</param>
/// <param name="WrittenIn">The paper in which it is written.</param>
public sealed record SealedPolicy(
    ShortWindow ShortWindow, Surplus Surplus, int TolerancePercent, int SessionShare, LocalDate? From = null, string? Words = null, string? WrittenIn = null)
{
    internal static SealedPolicy Of(Calendar.PolicyRow? row) => row is null
        ? new(Policy.Default.ShortWindow, Policy.Default.Surplus, Policy.Default.TolerancePercent, Policy.Default.SessionShare)
        : new(row.ShortWindow, row.Surplus, row.TolerancePercent, row.SessionShare, row.FromDay, row.PolicyWords, row.WrittenIn);
}
