using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Import;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Progress;

namespace TeamCircle.Data.Import;

/// <summary>Stores decisions and probes. Neither has a key of its own: of rows that look alike, the first in the file is the first that was stored.</summary>
internal sealed class StoreDecisions(ImportDesk desk)
{
    private readonly record struct DecisionKey(int? Service, int? Goal, LocalDate Date, DecisionKind Kind, LocalDate DecidedOn);

    private readonly record struct ProbeKey(int Goal, int Provider, LocalDate Date, ProbeKind Kind);

    public async Task DecisionsAsync(IReadOnlyList<DecisionLine> lines, CancellationToken stop)
    {
        int[] learners = [.. lines.Select(l => desk.Learners[l.Learner]).Distinct()];
        var known = Queues(
            await desk.Db.Decisions.Where(d => d.AgencyId == desk.Agency && d.Live && learners.Contains(d.LearnerId)).OrderBy(d => d.Id).ToListAsync(stop),
            d => new DecisionKey(d.ServiceId, d.GoalId, d.OnDay, d.Kind, d.DecidedOn));
        var added = new List<DecisionRow>();
        foreach (var line in lines)
        {
            var row = Decision(line);
            var old = Next(known, new DecisionKey(row.ServiceId, row.GoalId, row.OnDay, row.Kind, row.DecidedOn));
            if (old is not null && Same(old, row))
            {
                desk.Count(line.File, line.Line, old);
                continue;
            }
            if (desk.IsClosed(line.File, line.Line, "date", row.LearnerId, (row.OnDay, null)))
                continue;
            if (old is not null)
                (old.Live, old.TakenBackReason) = (false, "brought again by a file");
            desk.Count(line.File, line.Line, old is null ? desk.Add(row) : old);
            if (old is not null)
                added.Add(row);
        }
        await desk.SaveAsync(stop);
        added.ForEach(row => desk.Add(row));
        await desk.SaveAsync(stop);
    }

    private DecisionRow Decision(DecisionLine line) => new()
    {
        LearnerId = desk.Learners[line.Learner],
        ServiceId = line.Service is null ? null : desk.Services[line.Service],
        GoalId = line.Goal is null ? null : desk.Goals[line.Goal],
        OnDay = line.Date,
        Amount = line.Amount,
        Sessions = line.Sessions,
        Kind = line.Kind,
        DecidedOn = line.DecidedOn,
        DecidedBy = [.. line.By.Select(email => desk.People[email])],
        FamilyToldOn = line.FamilyToldOn,
        Note = line.Note,
    };

    private static bool Same(DecisionRow old, DecisionRow row) =>
        (old.Amount, old.Sessions, old.FamilyToldOn) == (row.Amount, row.Sessions, row.FamilyToldOn)
        && old.Note == (row.Note ?? old.Note) && old.DecidedBy.Order().SequenceEqual(row.DecidedBy.Order());

    public async Task ProbesAsync(IReadOnlyList<ProbeLine> lines, CancellationToken stop)
    {
        int[] goals = [.. lines.Select(l => desk.Goals[l.Goal]).Distinct()];
        LocalDate[] days = [.. lines.Select(l => l.Date).Distinct()];
        var known = Queues(
            await desk.Db.Probes.Where(p => p.AgencyId == desk.Agency && p.Live && goals.Contains(p.GoalId) && days.Contains(p.OnDay))
                .OrderBy(p => p.RecordedAt).ThenBy(p => p.Id).ToListAsync(stop),
            p => new ProbeKey(p.GoalId, p.ProviderId, p.OnDay, p.Kind));
        var added = new List<ProbeRow>();
        foreach (var line in lines)
        {
            var row = Probe(line);
            var old = Next(known, new ProbeKey(row.GoalId, row.ProviderId, row.OnDay, row.Kind));
            if (old is not null && Same(old, row))
            {
                desk.Count(line.File, line.Line, old);
                continue;
            }
            if (desk.IsClosed(line.File, line.Line, "date", row.LearnerId, (row.OnDay, row.PaysOn)))
                continue;
            if (old is not null)
                Correct(old, row);
            added.Add(row);
            desk.Count(line.File, line.Line, old is null ? row : old, row);
        }
        await desk.AddAsync(added, stop);
    }

    private ProbeRow Probe(ProbeLine line) => new()
    {
        Id = Guid.CreateVersion7(),
        LearnerId = desk.Learners[line.Learner],
        GoalId = desk.Goals[line.Goal],
        ProviderId = desk.People[line.Provider],
        OnDay = line.Date,
        PaysOn = line.PaysOn,
        Value = line.Value,
        Opportunities = line.Opportunities,
        Kind = line.Kind,
        Stage = line.Stage,
        FromFile = true,
    };

    private static bool Same(ProbeRow old, ProbeRow row) =>
        (old.Value, old.PaysOn, old.Opportunities, old.Stage) == (row.Value, row.PaysOn, row.Opportunities ?? old.Opportunities, row.Stage ?? old.Stage);

    private static void Correct(ProbeRow old, ProbeRow row)
    {
        old.Live = false;
        (row.Replaces, row.CorrectionReason, row.Conditions, row.SessionId) = (old.Id, "brought again by a file", old.Conditions, old.SessionId);
        (row.Opportunities, row.Stage) = (row.Opportunities ?? old.Opportunities, row.Stage ?? old.Stage);
    }

    private static Dictionary<TKey, Queue<T>> Queues<TKey, T>(IEnumerable<T> rows, Func<T, TKey> key) where TKey : notnull =>
        rows.GroupBy(key).ToDictionary(g => g.Key, g => new Queue<T>(g));

    private static T? Next<TKey, T>(Dictionary<TKey, Queue<T>> known, TKey key) where TKey : notnull where T : class =>
        known.TryGetValue(key, out var queue) && queue.TryDequeue(out var row) ? row : null;
}
