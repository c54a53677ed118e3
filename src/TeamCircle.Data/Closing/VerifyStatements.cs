using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Retention;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Closing;

/// <summary>Works every sealed count out anew, and compares the closed ones with what stands today.</summary>
public sealed class VerifyStatements(Portal portal)
{
    /// <param name="Statements">How many fit what they sealed.</param>
    /// <param name="Lines">How many lines they hold.</param>
    /// <param name="Misfit">The first statement, line or row that does not fit, in a sentence without names; null where all do.</param>
    /// <param name="Differences">What closed counts would come to otherwise today.</param>
    public sealed record Answer(int Statements, int Lines, string? Misfit, IReadOnlyList<CountDifference> Differences);

    /// <summary>A figure of a closed count that today's facts do not come to.</summary>
    /// <param name="Line">The agency's code of the service or goal; a number where it was taken back.</param>
    /// <param name="Sealed">JSON; null where the line was not there.</param>
    /// <param name="Today">JSON; null where the line is no more.</param>
    /// <param name="Changes">The changes since the sealing that may stand behind it, oldest first; at most <see cref="MostChanges"/>.</param>
    public sealed record CountDifference(string Learner, string Period, string Line, string Figure, string? Sealed, string? Today, IReadOnlyList<string> Changes);

    public const int MostChanges = 20;

    public Task<Answer> RunAsync(int agency, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.Job(agency, 0, "verifying"), db => RunAsync(db, agency, stop), stop);

    private static async Task<Answer> RunAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var answer = new Answer(0, 0, null, []);
        var differences = new List<CountDifference>();
        var known = await db.Database.SqlQuery<SealedMark>(
            $"""select c.id as "Change", c.row_key as "Key", c.after ->> 'hash' as "Hash" from portal.changes c where c.agency_id = {agency} and c.table_name = 'statements' and c.act = 'insert'""")
            .ToDictionaryAsync(m => int.Parse(m.Key, CultureInfo.InvariantCulture), stop);
        var ids = await db.Statements.Where(s => s.AgencyId == agency).OrderBy(s => s.Id).Select(s => s.Id).ToListAsync(stop);
        if (known.Keys.Except(ids).Order().Select(id => (int?)id).FirstOrDefault() is { } missing)
            return answer with { Misfit = string.Create(CultureInfo.InvariantCulture, $"Missing: statement {missing}, which the trail of changes holds.") };
        foreach (var id in ids)
        {
            var statement = await db.Statements.SingleAsync(s => s.AgencyId == agency && s.Id == id, stop);
            var lines = await db.SealedLines.Where(l => l.AgencyId == agency && l.StatementId == id).OrderBy(l => l.Position).ToListAsync(stop);
            if (Misfit(statement, lines, known.GetValueOrDefault(id)?.Hash) is { } misfit)
                return answer with { Misfit = misfit };
            differences.AddRange(await DifferencesAsync(db, statement, lines, known[id].Change, stop));
            answer = answer with { Statements = answer.Statements + 1, Lines = answer.Lines + lines.Count };
        }
        return answer with { Differences = differences, Misfit = await AlteredRows.FindAsync(db, agency, stop) };
    }

    private static string? Misfit(StatementRow statement, List<SealedLineRow> lines, string? hash)
    {
        var name = string.Create(CultureInfo.InvariantCulture,
            $"statement {statement.Id} (edition {statement.Edition} of learner {statement.LearnerId}, period {statement.PeriodId}, sealed {statement.SealedAt:uuuu-MM-dd HH:mm:ss'Z'})");
        if (statement.Rules != SealedStatement.RulesVersion)
            return $"Rules: {name} was worked out by version {statement.Rules} of the rules, this program holds version {SealedStatement.RulesVersion}.";
        foreach (var line in lines)
        {
            if (AnswerOf(line) is not { } worked || worked != line.Answer)
                return string.Create(CultureInfo.InvariantCulture, $"Altered: line {line.Position} (sealed_lines {line.Id}) of {name}: its inputs do not come to its answer.");
        }
        if (statement.Sealed([.. lines.Select(l => l.Sealed)]).Hash() != statement.Hash)
            return $"Altered: {name}, or one of its {lines.Count.ToString(CultureInfo.InvariantCulture)} lines: the hash does not fit what it says.";
        return statement.Hash == hash ? null : $"Altered: {name}: the trail of changes holds another hash, or none.";
    }

    private static string? AnswerOf(SealedLineRow line)
    {
        try
        {
            return SealedFigures.Answer(line.Inputs);
        }
        catch (CaseException)
        {
            return null;
        }
    }

    /// <summary>Nothing for an edition in whose place another stands, and for a count that is open again.</summary>
    private static async Task<IReadOnlyList<CountDifference>> DifferencesAsync(
        PortalDb db, StatementRow statement, List<SealedLineRow> lines, long since, CancellationToken stop)
    {
        var (agency, learner, period) = (statement.AgencyId, statement.LearnerId, statement.PeriodId);
        var closed = await db.LearnerPeriods.SingleOrDefaultAsync(l => l.AgencyId == agency && l.LearnerId == learner && l.PeriodId == period && l.ClosedAt != null, stop);
        if (closed is not { LastDay: { } last, FirstDay: { } first } || await db.Statements.AnyAsync(s => s.AgencyId == agency && s.RestatesId == statement.Id, stop)
            || await CountWork.ReadAsync(db, agency, learner, period, statement.AsOf, stop) is not { } count)
            return [];
        var withoutProbes = await db.Destructions.AnyAsync(
            d => d.AgencyId == agency && d.LearnerId == learner && d.Kind == RecordKind.Probes && d.DestroyedAt != null && d.UpTo >= first, stop);
        var today = Keyed(count.Lines, l => (l.Line.IsProbes, l.Line.Id, l.Line.OwnerId));
        var then = Keyed(lines, l => (l.GoalId is not null, l.ServiceId ?? l.GoalId!.Value, l.OwnerId));
        var different = new List<(string Line, string Figure, string? Sealed, string? Today)>();
        // What was destroyed is no difference: the sealed line says what was counted, and nothing is left to hold against it.
        foreach (var key in then.Keys.Union(today.Keys).Where(k => !(withoutProbes && k.Item1.Item1)))
        {
            var was = then.TryGetValue(key, out var row) ? SealedFigures.Held(row.Inputs, Day.Of(last)) : null;
            var stands = today.TryGetValue(key, out var line) ? SealedFigures.Held(count.Case(line), Day.Of(last)) : null;
            different.AddRange(Different(was, stands).Select(d => (line?.Line.Code ?? key.ToString(), d.Figure, d.Sealed, d.Today)));
        }
        var changes = different.Count == 0 ? [] : await ChangesAsync(db, statement, since, first, last, stop);
        return [.. different.Select(d => new CountDifference(count.Names.Learners[learner].Code, count.Period.Name, d.Line, d.Figure, d.Sealed, d.Today, changes))];
    }

    /// <summary>A goal has several lines under one key where its kind of window changed: they keep their order.</summary>
    private static Dictionary<(TKey, int), T> Keyed<TKey, T>(IEnumerable<T> lines, Func<T, TKey> key) =>
        lines.GroupBy(key).SelectMany(same => same.Select((line, i) => ((same.Key, i), line))).ToDictionary(l => l.Item1, l => l.line);

    private static IEnumerable<(string Figure, string? Sealed, string? Today)> Different(IReadOnlyDictionary<string, string>? was, IReadOnlyDictionary<string, string>? stands)
    {
        if (was is null || stands is null)
            return [("line", was is null ? null : "there", stands is null ? null : "there")];
        return was.Keys.Union(stands.Keys).Where(name => name != "windows" && was.GetValueOrDefault(name) != stands.GetValueOrDefault(name))
            .Select(name => (name, was.GetValueOrDefault(name), stands.GetValueOrDefault(name)))
            .DefaultIfEmpty(was["windows"] == stands["windows"] ? default : ("windows", was["windows"], stands["windows"])).Where(d => d.Item1 is not null);
    }

    /// <param name="since">The change that the sealing left: later ones came after it, whatever the clocks say.</param>
    private static async Task<IReadOnlyList<string>> ChangesAsync(PortalDb db, StatementRow statement, long since, LocalDate first, LocalDate last, CancellationToken stop)
    {
        var rows = await db.Changes.FromSql(
            $"""
            select c.* from portal.changes c
            where c.agency_id = {statement.AgencyId} and c.id > {since}
              and ((c.learner_id = {statement.LearnerId} and c.table_name in ('sessions', 'probes', 'decisions', 'visits')
                    and ((c.before ->> 'on_day')::date between {first} and {last} or (c.after ->> 'on_day')::date between {first} and {last}))
                or (c.learner_id = {statement.LearnerId} and c.table_name in ('plans', 'services', 'service_versions', 'goals', 'probe_commitments', 'goal_owners', 'balances'))
                or c.table_name in ('terms', 'closures', 'periods', 'policies', 'agencies'))
            order by c.id limit {MostChanges}
            """).ToListAsync(stop);
        return [.. rows.Select(c => string.Create(CultureInfo.InvariantCulture,
            $"change {c.Id} ({c.Act} of {c.TableName} {c.RowKey} by person {c.PersonId} at {c.At:uuuu-MM-dd HH:mm:ss'Z'}, {c.Ground})"))];
    }

    /// <param name="Change">The number of the change that the sealing left.</param>
    private sealed record SealedMark(long Change, string Key, string Hash);
}
