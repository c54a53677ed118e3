using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>What stands in the rows of an agency, or of some of its learners, about services and probe commitments.</summary>
public sealed class CommitmentFacts
{
    private readonly LineEntries _entries;
    private readonly ByLine<Decision> _decisions;
    private readonly ByLine<Debt> _debts;
    private BusyDays _busy = new();
    private (int Learner, Judging At)? _busyFor;

    internal CommitmentFacts(
        AgencyRules rules, CommitmentLine[] lines, LinesByLearner byLearner, LineEntries entries, ByLine<Decision> decisions, ByLine<Debt> debts) =>
        (Rules, Lines, ByLearner, _entries, _decisions, _debts) = (rules, lines, byLearner, entries, decisions, debts);

    public AgencyRules Rules { get; }

    /// <summary>Services as they came, then the probe commitments.</summary>
    public IReadOnlyList<CommitmentLine> Lines { get; }

    /// <summary>What was given otherwise than promised, on the days that were looked at; empty where none were.</summary>
    public IReadOnlyList<LineCheck> Otherwise { get; internal init; } = [];

    /// <summary>Indexes of the lines of each learner.</summary>
    public LinesByLearner ByLearner { get; }

    /// <summary>What was given for a line: visits by day and start.</summary>
    public ReadOnlySpan<Entry> Given(int line) => EntriesGiven(line).Of(line);

    /// <summary>Who gave each of <see cref="Given"/>; 0 for what an agency brought along.</summary>
    public ReadOnlySpan<int> GivenBy(int line) => EntriesGiven(line).PeopleOf(line);

    public ReadOnlySpan<Entry> Planned(int line) => _entries.Planned.Of(line);

    /// <summary>Who is to give each of <see cref="Planned"/>.</summary>
    public ReadOnlySpan<int> PlannedBy(int line) => _entries.Planned.PeopleOf(line);

    public ReadOnlySpan<Decision> Decisions(int line) => _decisions.Of(line);

    /// <summary>The row of each of <see cref="Decisions"/>.</summary>
    public ReadOnlySpan<int> DecisionIds(int line) => _decisions.NumbersOf(line);

    /// <summary>What sealed periods brought forward, oldest first.</summary>
    public ReadOnlySpan<Debt> Debts(int line) => _debts.Of(line);

    /// <summary>The row of each of <see cref="Debts"/>.</summary>
    public ReadOnlySpan<int> DebtIds(int line) => _debts.NumbersOf(line);

    /// <summary>The same facts for another thread.</summary>
    public CommitmentFacts Beside()
    {
        var other = (CommitmentFacts)MemberwiseClone();
        (other._busy, other._busyFor) = (new BusyDays(), null);
        return other;
    }

    /// <summary>What the ledger takes for one line, with the learner's days as they are taken by all lines of the learner's own time.</summary>
    /// <remarks>Lines of one learner, one after the other, share the sum of the learner's days. Not safe for several threads: see <see cref="Beside"/>.</remarks>
    public LineFacts Of(int line, in Judging at)
    {
        var row = Lines[line];
        if (row.IsProbes)
            FillDays(line, at);
        else if (row.DailyLimit is not null && _busyFor != (row.LearnerId, at))
            FillDays(row.LearnerId, ByLearner.Of(row.LearnerId), at);
        return new()
        {
            Promise = row.Promise,
            Windows = row.Windows,
            Given = Given(line),
            Planned = Planned(line),
            Decisions = Decisions(line),
            Debts = Debts(line),
            DailyLimit = row.DailyLimit,
            Busy = _busy,
        };
    }

    private EntriesByLine EntriesGiven(int line) => Lines[line].IsProbes ? _entries.Probes : _entries.Given;

    private void FillDays(int learner, ReadOnlySpan<int> lines, in Judging at)
    {
        _busy.Clear(at.Period);
        foreach (var line in lines)
        {
            if (Lines[line].TakesLearnersTime)
                _busy.AddLine(Given(line), Planned(line), at.AsOf);
        }
        _busyFor = (learner, at);
    }

    private void FillDays(int line, in Judging at)
    {
        _busy.Clear(at.Period);
        _busy.AddLine(Given(line), Planned(line), at.AsOf);
        _busyFor = null;
    }
}

/// <summary>Visits given, probes taken, and what is planned of both.</summary>
internal readonly record struct LineEntries(EntriesByLine Given, EntriesByLine Probes, EntriesByLine Planned);
