using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>One edition of a statement as it was sealed; nothing in it comes from today's rows but the number of its latest edition.</summary>
/// <param name="Policy">The policy in force on the period's last day.</param>
/// <param name="Names">The names in it, by the numbers that its lines use.</param>
/// <param name="SealedAt">In the agency's zone.</param>
/// <param name="Latest">The number of the latest edition.</param>
public sealed record StatementPage(
    StatementRow Row, StatementFacts Facts, SealedPolicy Policy, AuditNames Names, IReadOnlyList<StatementLineRead> Lines, IReadOnlyList<LeftStanding> Left,
    LocalDateTime SealedAt, int Latest)
{
    /// <summary>What differs from the edition before it; null for the first.</summary>
    public IReadOnlyList<LineDifference>? Differences { get; init; }

    /// <summary>Whether the hash fits what was sealed.</summary>
    public bool Fits => Row.Sealed([.. Lines.Select(l => l.Sealed)]).Hash() == Row.Hash;
}

/// <summary>One line of a statement.</summary>
/// <param name="Ledger">Worked out anew from the sealed inputs.</param>
/// <param name="Answer">The figures as they were sealed.</param>
/// <param name="Fits">Whether today's rules come to the sealed answer: only then do their sums explain it.</param>
public sealed record StatementLineRead(SealedLine Sealed, StatementLine Facts, LedgerLine Ledger, SealedAnswer Answer, bool Fits);

/// <summary>Reads an edition of the statement that closed a learner's count.</summary>
public sealed class ReadStatement(Portal portal)
{
    /// <summary>Null where the scope reaches no such statement.</summary>
    /// <param name="edition">Null: the latest.</param>
    public Task<StatementPage?> RunAsync(Scope scope, int learner, int period, int? edition, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var agency = scope.AgencyId;
        var rows = await db.Statements.AsNoTracking().Where(s => s.AgencyId == agency && s.LearnerId == learner && s.PeriodId == period)
            .OrderBy(s => s.Edition).ToListAsync(stop);
        var at = edition is { } number ? rows.FindIndex(r => r.Edition == number) : rows.Count - 1;
        if (at < 0)
            return null;
        int[] asked = [.. rows.Take(at + 1).TakeLast(2).Select(r => r.Id)];
        var lines = (await db.SealedLines.AsNoTracking().Where(l => l.AgencyId == agency && l.LearnerId == learner && asked.Contains(l.StatementId))
            .OrderBy(l => l.Position).ToListAsync(stop)).ToLookup(l => l.StatementId, l => l.Sealed);
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var page = Of(rows[at], [.. lines[rows[at].Id]], zone, rows[^1].Edition);
        return at == 0 ? page : page with { Differences = StatementDifference.Of(Compared(rows[at - 1], lines), Compared(rows[at], lines)) };
    }, stop);

    private static IReadOnlyList<ComparedLine> Compared(StatementRow row, ILookup<int, SealedLine> lines) =>
        ComparedLine.Of([.. lines[row.Id]], StatementFacts.Read(row.Facts).Lines);

    private static StatementPage Of(StatementRow row, IReadOnlyList<SealedLine> lines, DateTimeZone zone, int latest)
    {
        var facts = StatementFacts.Read(row.Facts);
        var ledger = new SealedLedger();
        StatementLineRead[] read = [.. lines.Zip(facts.Lines, (line, beside) => new StatementLineRead(
            line, beside, ledger.Line(line, beside, row.LearnerId), SealedAnswer.Read(line.Answer), SealedFigures.Answer(line.Inputs) == line.Answer))];
        return new(row, facts, JsonSerializer.Deserialize<SealedPolicy>(row.Policy, StrictJson.Options)!, ledger.Names, read,
            JsonSerializer.Deserialize<LeftStanding[]>(row.LeftStanding, StrictJson.Options)!, row.SealedAt.InZone(zone).LocalDateTime, latest);
    }
}
