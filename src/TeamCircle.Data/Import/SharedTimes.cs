using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>
/// Visits that share their time, as the rules allow: the database lets rows overlap only where they carry the same number,
/// one for the provider's time (group sessions), one for the learner's (co-treatment).
/// </summary>
internal sealed class SharedTimes
{
    private sealed record Share(int? Line, StoredVisit? Stored, LocalTime Start, LocalTime End);

    /// <summary>Numbers of the lines' visits by their place in the list; no number: a fresh one of its own, or the one it has.</summary>
    public Dictionary<int, (long? Group, long? Together)> Lines { get; } = [];

    /// <summary>New numbers of stored visits that no line is about.</summary>
    public Dictionary<Guid, (long? Group, long? Together)> Others { get; } = [];

    /// <param name="next">Gives a fresh number.</param>
    public SharedTimes(IReadOnlyList<VisitLine> lines, IReadOnlyList<StoredVisit> stored, Func<long> next)
    {
        var replaced = lines.Where(l => l.Stored is not null).Select(l => l.Stored!.Id).ToHashSet();
        var others = stored.Where(v => v.TakesTime && !replaced.Contains(v.Id)).ToList();
        var shares = new Dictionary<(bool Learners, string Who, LocalDate Day), List<Share>>();
        for (var i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            if (line.TakesTime)
                Gather(shares, line.Provider, line.LearnersTime ? line.Learner : null, line.Date, new(i, line.Stored, line.Start, line.End));
        }
        foreach (var visit in others)
            Gather(shares, visit.Provider, visit.LearnersTime ? visit.Learner : null, visit.Date, new(null, visit, visit.Start, visit.Start.PlusMinutes(visit.Minutes)));
        foreach (var (key, members) in shares)
            Number(members, key.Learners, next);
    }

    private static void Gather(
        Dictionary<(bool, string, LocalDate), List<Share>> shares, string provider, string? learner, LocalDate day, Share share)
    {
        Of((false, provider.ToUpperInvariant(), day)).Add(share);
        if (learner is not null)
            Of((true, learner.ToUpperInvariant(), day)).Add(share);

        List<Share> Of((bool, string, LocalDate) key) => shares.TryGetValue(key, out var list) ? list : shares[key] = [];
    }

    /// <summary>Runs of visits that overlap one another get one number: that of a stored one among them, or a fresh one.</summary>
    private void Number(List<Share> members, bool learners, Func<long> next)
    {
        members.Sort((a, b) => a.Start.CompareTo(b.Start));
        for (var first = 0; first < members.Count;)
        {
            var (end, last) = (members[first].End, first + 1);
            for (; last < members.Count && members[last].Start < end; last++)
                end = LocalTime.Max(end, members[last].End);
            if (last - first > 1)
                Number(members[first..last], learners, NumberOf(members[first..last], learners) ?? next());
            first = last;
        }
    }

    private static long? NumberOf(List<Share> run, bool learners) =>
        run.Where(s => s.Stored is not null).Min(s => (long?)(learners ? s.Stored!.TogetherNo : s.Stored!.GroupNo));

    private void Number(List<Share> run, bool learners, long number)
    {
        foreach (var share in run)
        {
            if (share.Line is { } line)
                Lines[line] = With(Lines.GetValueOrDefault(line), learners, number);
            else if (number != (learners ? share.Stored!.TogetherNo : share.Stored!.GroupNo))
                Others[share.Stored.Id] = With(Others.GetValueOrDefault(share.Stored.Id), learners, number);
        }
    }

    private static (long?, long?) With((long? Group, long? Together) numbers, bool learners, long number) =>
        learners ? (numbers.Group, number) : (number, numbers.Together);
}
