using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Judges every line of a reading, and for each provider their share of it: learner by learner, on two processors.</summary>
internal sealed class JudgeAll
{
    private readonly CommitmentFacts _facts;
    private readonly Judging _at;
    private readonly LedgerDesk _desk = new();
    private readonly AuditLine[] _lines;
    private readonly Dictionary<int, Share> _shares = [];
    private readonly Dictionary<int, int> _gave = [];

    private JudgeAll(CommitmentFacts facts, Judging at, AuditLine[] lines) => (_facts, _at, _lines) = (facts, at, lines);

    private DateRange Known => new(_at.Period.First, Math.Min(_at.Period.Last, _at.AsOf));

    public static (IReadOnlyList<AuditLine> Lines, IReadOnlyList<ProviderAudit> Providers) Run(CommitmentFacts facts, Judging at)
    {
        var lines = new AuditLine[facts.Lines.Count];
        var (learners, half) = (facts.ByLearner.Learners, facts.ByLearner.Learners / 2);
        var (first, second) = (new JudgeAll(facts, at, lines), new JudgeAll(facts.Beside(), at, lines));
        TwoAtOnce.Run(() => first.Judge(0, half), () => second.Judge(half, learners));
        foreach (var (person, share) in second._shares)
            first.ShareOf(person).Add(share);
        return (lines, [.. first._shares.OrderBy(s => s.Key).Select(s => s.Value.Of(s.Key))]);
    }

    private void Judge(int firstLearner, int end)
    {
        for (var learner = firstLearner; learner < end; learner++)
        {
            foreach (var line in _facts.ByLearner.At(learner))
                JudgeLine(line);
        }
    }

    private void JudgeLine(int index)
    {
        var line = _facts.Lines[index];
        var known = _facts.Of(index, _at);
        var balance = Ledger.Judge(known, _at, _desk);
        var isUnassigned = IsUnassigned(line);
        _lines[index] = new(line, balance, isUnassigned) { Without = isUnassigned ? DaysWithout.Of(_facts, index, Known.Last) : null };
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
            touches |= days.Touches(_at.Period);
        if (!touches)
            return;
        var isAll = named.Length == 1 && named[0].And(line.Promise.Dates) == line.Promise.Dates;
        var own = isAll ? _lines[index] : _lines[index] with { Balance = Ledger.Judge(known, _at, _desk, null, named) };
        ShareOf(person).Add(new(index, own, isShared, _gave.GetValueOrDefault(person)), line.IsProbes);
    }

    private bool IsUnassigned(CommitmentLine line)
    {
        var days = line.Promise.Dates.And(_at.Period);
        return !days.IsEmpty && !line.IsAssigned(Math.Clamp(_at.AsOf, days.First, days.Last));
    }

    /// <summary>Fills <see cref="_gave"/> with what each person gave for this line in the period.</summary>
    private void CountGiven(int index, bool isProbes)
    {
        _gave.Clear();
        var entries = _facts.Given(index);
        var people = _facts.GivenBy(index);
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

        public void Add(Share other)
        {
            _lines.AddRange(other._lines);
            _standing = _standing.Plus(other._standing);
            _minutes += other._minutes;
            _probes += other._probes;
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
