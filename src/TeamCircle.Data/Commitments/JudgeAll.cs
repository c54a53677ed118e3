using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Judges every line of a reading, and for each provider their share of it.</summary>
internal sealed class JudgeAll(CommitmentFacts facts, Judging at)
{
    private readonly LedgerDesk _desk = new();
    private readonly AuditLine[] _lines = new AuditLine[facts.Lines.Count];
    private readonly Dictionary<int, Share> _shares = [];
    private readonly Dictionary<int, int> _gave = [];

    private DateRange Known => new(at.Period.First, Math.Min(at.Period.Last, at.AsOf));

    public (IReadOnlyList<AuditLine> Lines, IReadOnlyList<ProviderAudit> Providers) Run()
    {
        foreach (var learner in facts.ByLearner)
        {
            foreach (var line in learner)
                JudgeLine(line);
        }
        return (_lines, [.. _shares.OrderBy(s => s.Key).Select(s => s.Value.Of(s.Key))]);
    }

    private void JudgeLine(int index)
    {
        var line = facts.Lines[index];
        var known = facts.Of(index, at);
        var balance = Ledger.Judge(known, at, _desk);
        var isUnassigned = IsUnassigned(line);
        _lines[index] = new(line, balance, isUnassigned) { Without = isUnassigned ? DaysWithout.Of(facts, index, Known.Last) : null };
        CountGiven(index, line.IsProbes);
        if (line.Named is [var only])
            AddShare(index, line, known, only.PersonId, [only.Days], isShared: false);
        else
            AddShares(index, line, known);
    }

    private void AddShares(int index, CommitmentLine line, in LineFacts known)
    {
        foreach (var person in line.Named.Select(n => n.PersonId).Distinct())
        {
            DateRange[] days = [.. line.Named.Where(n => n.PersonId == person).Select(n => n.Days)];
            AddShare(index, line, known, person, days, isShared: days.Length < line.Named.Length);
        }
    }

    /// <summary>Adds a line to what stands for a person; named throughout, they have what the line itself has.</summary>
    private void AddShare(int index, CommitmentLine line, in LineFacts known, int person, ReadOnlySpan<DateRange> named, bool isShared)
    {
        var touches = false;
        foreach (var days in named)
            touches |= days.Touches(at.Period);
        if (!touches)
            return;
        var isAll = named.Length == 1 && named[0].And(line.Promise.Dates) == line.Promise.Dates;
        var own = isAll ? _lines[index].Balance : Ledger.Judge(known, at, _desk, null, named);
        ShareOf(person).Add(new(index, own, isShared, _gave.GetValueOrDefault(person)), line.IsProbes);
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
        for (var i = 0; i < entries.Length;)
        {
            // Mostly one person gives all of a line.
            var (person, sum, isAny) = (people[i], 0, false);
            for (; i < entries.Length && people[i] == person; i++)
            {
                var isKnown = Known.Holds(entries[i].Day);
                sum += isKnown ? entries[i].Amount : 0;
                isAny |= isKnown;
            }
            if (person == 0 || !isAny)
                continue;
            _gave[person] = _gave.GetValueOrDefault(person) + sum;
            ShareOf(person).Gave(sum, isProbes);
        }
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
