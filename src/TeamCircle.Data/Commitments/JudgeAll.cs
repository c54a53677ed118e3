using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Judges every line of a reading, and for each provider their share of it.</summary>
internal sealed class JudgeAll(CommitmentFacts facts, Judging at)
{
    private readonly LedgerDesk _desk = new();
    private readonly AuditLine[] _lines = new AuditLine[facts.Lines.Count];
    private readonly SortedDictionary<int, Share> _shares = [];
    private readonly Dictionary<int, int> _gave = [];

    private DateRange Known => new(at.Period.First, Math.Min(at.Period.Last, at.AsOf));

    public (IReadOnlyList<AuditLine> Lines, IReadOnlyList<ProviderAudit> Providers) Run()
    {
        foreach (var learner in facts.ByLearner)
        {
            foreach (var line in learner)
                JudgeLine(line);
        }
        return (_lines, [.. _shares.Select(s => s.Value.Of(s.Key))]);
    }

    private void JudgeLine(int index)
    {
        var line = facts.Lines[index];
        var known = facts.Of(index, at);
        var balance = Ledger.Judge(known, at, _desk);
        _lines[index] = new(line, balance, IsUnassigned(line));
        CountGiven(index, line.IsProbes);
        foreach (var person in People(line))
        {
            var (named, isShared) = DaysOf(line, person);
            if (!named.Exists(d => d.Touches(at.Period)))
                continue;
            var isAll = named.Count == 1 && named[0].And(line.Promise.Dates) == line.Promise.Dates;
            var own = isAll ? balance : Ledger.Judge(known, at, _desk, null, [.. named]);
            ShareOf(person).Add(new(index, own, isShared, _gave.GetValueOrDefault(person)), line.IsProbes);
        }
    }

    private bool IsUnassigned(CommitmentLine line)
    {
        var days = line.Promise.Dates.And(at.Period);
        return !days.IsEmpty && !line.IsAssigned(Math.Clamp(at.AsOf, days.First, days.Last));
    }

    /// <summary>Fills <see cref="_gave"/> with what each person gave for this line in the period.</summary>
    private void CountGiven(int index, bool isProbes)
    {
        _gave.Clear();
        var entries = facts.Given(index);
        var people = facts.GivenBy(index);
        for (var i = 0; i < entries.Length; i++)
        {
            if (people[i] == 0 || !Known.Holds(entries[i].Day))
                continue;
            _gave[people[i]] = _gave.GetValueOrDefault(people[i]) + entries[i].Amount;
            ShareOf(people[i]).Gave(entries[i].Amount, isProbes);
        }
    }

    private static IEnumerable<int> People(CommitmentLine line) =>
        line.Named.Length < 2 ? line.Named.Select(n => n.PersonId) : line.Named.Select(n => n.PersonId).Distinct();

    private static (List<DateRange> Days, bool IsShared) DaysOf(CommitmentLine line, int person)
    {
        var days = new List<DateRange>(1);
        var isShared = false;
        foreach (var named in line.Named)
        {
            if (named.PersonId == person)
                days.Add(named.Days);
            else
                isShared = true;
        }
        return (days, isShared);
    }

    private Share ShareOf(int person)
    {
        if (!_shares.TryGetValue(person, out var share))
            _shares[person] = share = new Share();
        return share;
    }

    private sealed class Share
    {
        private readonly List<ProviderLine> _lines = [];
        private ProviderStanding _standing;
        private int _minutes;
        private int _probes;

        public void Add(in ProviderLine line, bool isProbes)
        {
            _lines.Add(line);
            _standing = isProbes ? _standing.WithProbes(line.Balance.Status) : _standing.WithService(line.Balance.Status);
        }

        public void Gave(int amount, bool isProbes)
        {
            if (isProbes)
                _probes += amount;
            else
                _minutes += amount;
        }

        public ProviderAudit Of(int person) => new(person, _standing, _lines, _minutes, _probes);
    }
}
