using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Commitments;

/// <summary>Finds the rows behind the entries that the ledger worked with, in the same snapshot and the same order.</summary>
internal sealed class ReadLedgerFacts(PortalDb db, CommitmentFacts facts, Judging at)
{
    private int Agency => facts.Rules.Agency.Id;

    public async Task<LedgerLine> RunAsync(int index, CancellationToken stop)
    {
        var line = facts.Lines[index];
        var working = Ledger.Explain(facts.Of(index, at), at);
        var sessions = line.IsProbes ? [] : await SessionsAsync(line, stop);
        var given = line.IsProbes ? await ProbesAsync(index, stop) : Given(index, sessions);
        var visits = await VisitsAsync(line, stop);
        var planned = line.IsProbes ? Planned(index, visits) : [.. visits.Select(Fact)];
        var notGiven = sessions.Where(s => s.Outcome != VisitOutcome.Given && Day.Of(s.OnDay) <= at.AsOf).Select(Fact);
        return new(line, working, given, planned, await DecisionsAsync(index, stop), [.. notGiven]);
    }

    public Task<List<ServiceVersionRow>> VersionsAsync(CommitmentLine line, CancellationToken stop) => db.ServiceVersions
        .Where(v => v.AgencyId == Agency && v.LearnerId == line.LearnerId && v.ServiceId == line.Id).OrderBy(v => v.FromDay).ToListAsync(stop);

    public Task<GoalRow> GoalAsync(CommitmentLine line, CancellationToken stop) =>
        db.Goals.SingleAsync(g => g.AgencyId == Agency && g.Id == line.Id, stop);

    private Task<List<SessionRow>> SessionsAsync(CommitmentLine line, CancellationToken stop) => db.Sessions
        .Where(s => s.AgencyId == Agency && s.LearnerId == line.LearnerId && s.ServiceId == line.Id && s.Live && s.AwardId == null)
        .OrderBy(s => s.OnDay).ThenBy(s => s.StartTime).ThenBy(s => s.Id).ToListAsync(stop);

    /// <summary>What an agency brought along comes first, without a visit behind it; then the visits given, by day and start.</summary>
    private List<EntryFact> Given(int index, List<SessionRow> sessions)
    {
        var given = new List<EntryFact>();
        var entries = facts.Given(index);
        for (var i = 0; i < entries.Length && facts.GivenBy(index)[i] == 0; i++)
            given.Add(Brought(entries[i]));
        given.AddRange(sessions.Where(s => s.Outcome == VisitOutcome.Given).Select(Fact));
        return given;
    }

    private async Task<List<EntryFact>> ProbesAsync(int index, CancellationToken stop)
    {
        var line = facts.Lines[index];
        var rows = await db.Probes
            .Where(p => p.AgencyId == Agency && p.LearnerId == line.LearnerId && p.GoalId == line.Id && p.Live && p.Kind == ProbeKind.Probe)
            .OrderBy(p => p.OnDay).ThenBy(p => p.Id).ToListAsync(stop);
        var given = new List<EntryFact>();
        for (var i = 0; i < facts.Given(index).Length; i++)
        {
            var (entry, person) = (facts.Given(index)[i], facts.GivenBy(index)[i]);
            var row = rows.First(p => Day.Of(p.OnDay) == entry.Day && p.ProviderId == person && (p.PaysOn is null) == (entry.Pays == Day.None));
            given.Add(new(null, row.Id, row.OnDay, person, null, null, 0, true, VisitOutcome.Given, null, null, null, row.Value) { RecordedAt = row.FromFile ? null : row.RecordedAt, IsCorrected = row.Replaces is not null });
        }
        return given;
    }

    private Task<List<VisitRow>> VisitsAsync(CommitmentLine line, CancellationToken stop)
    {
        var asOf = Day.Date(at.AsOf);
        return db.Visits
            .Where(v => v.AgencyId == Agency && v.LearnerId == line.LearnerId && v.Live && v.AwardId == null && (line.IsProbes ? v.ServiceId != null : v.ServiceId == line.Id))
            .Where(v => v.State == VisitState.Planned || (v.State == VisitState.Logged && v.OnDay > asOf))
            .OrderBy(v => v.OnDay).ThenBy(v => v.StartTime).ThenBy(v => v.Id).ToListAsync(stop);
    }

    /// <summary>For each probe to come the first visit of that day and person.</summary>
    private List<EntryFact> Planned(int index, List<VisitRow> visits)
    {
        var planned = new List<EntryFact>();
        for (var i = 0; i < facts.Planned(index).Length; i++)
        {
            var (day, person) = (facts.Planned(index)[i].Day, facts.PlannedBy(index)[i]);
            planned.Add(Fact(visits.First(v => Day.Of(v.OnDay) == day && v.ProviderId == person)));
        }
        return planned;
    }

    private async Task<IReadOnlyList<DecisionRow>> DecisionsAsync(int index, CancellationToken stop)
    {
        var ids = facts.DecisionIds(index).ToArray();
        var rows = await db.Decisions.Where(d => d.AgencyId == Agency && ids.Contains(d.Id)).ToDictionaryAsync(d => d.Id, stop);
        return [.. ids.Select(id => rows[id])];
    }

    private static EntryFact Brought(Entry entry) =>
        new(null, null, Day.Date(entry.Day), 0, null, null, 0, true, VisitOutcome.Given, null, null, null, null);

    private static EntryFact Fact(SessionRow row) => new(
        row.VisitId, null, row.OnDay, row.ProviderId, row.StartTime, row.EndTime, row.NotCounted, row.Observed, row.Outcome, row.Reason,
        row.Place, row.Format, null)
    {
        RecordedAt = row.Origin == SessionOrigin.File ? null : row.RecordedAt,
        IsCorrected = row.Replaces is not null,
        Withheld = row.Withheld,
    };

    private static EntryFact Fact(VisitRow row) => new(
        row.Id, null, row.OnDay, row.ProviderId, row.StartTime, row.StartTime.PlusMinutes(row.Minutes), 0, true, VisitOutcome.Planned, null,
        row.Place, row.Format, null);
}
