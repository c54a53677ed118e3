using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Practice;

/// <summary>One routine in one person's hands.</summary>
/// <param name="Practices">Times practised.</param>
/// <param name="WithoutHelp">Of the opportunities.</param>
/// <param name="Share">The same as a share with its interval.</param>
/// <param name="Difference">That share less that of everybody else together; null where there is nobody else.</param>
/// <param name="Steps">Done as written.</param>
/// <param name="Waits">Kept, of the trials of which it can be said.</param>
public sealed record Hands(int Person, int Practices, CountOf WithoutHelp, Proportion Share, Proportion? Difference, WaitCurve Curve, CountOf Steps, CountOf Waits);

/// <summary>One routine, many hands: what each person recorded of the same routine. For the team alone, and no judgment of anybody.</summary>
/// <remarks>People practise at other times, in other places and on better and worse days: what differs between them may be any of these. Trials
/// of one visit are not independent, so that intervals are too narrow rather than too wide.</remarks>
public static class HandsReport
{
    /// <param name="practices">Each once; those without a trial too.</param>
    /// <param name="trials">Of these practices.</param>
    /// <returns>Those who practised most often first.</returns>
    public static IReadOnlyList<Hands> Of(IReadOnlyList<PractisedOnce> practices, IReadOnlyList<PractisedTrial> trials)
    {
        var byPerson = trials.ToLookup(t => t.In.Person);
        var all = CountOf.Where(trials.Where(t => t.IsOpportunity), t => t.WithoutHelp);
        return [.. practices.GroupBy(p => p.Person).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).Select(g => Of(g.Key, [.. g], [.. byPerson[g.Key]], all))];
    }

    private static Hands Of(int person, IReadOnlyList<PractisedOnce> practices, IReadOnlyList<PractisedTrial> trials, CountOf all)
    {
        var own = CountOf.Where(trials.Where(t => t.IsOpportunity), t => t.WithoutHelp);
        var (share, others) = (ShareOf(own), new CountOf(all.Count - own.Count, all.Of - own.Of));
        return new(
            person, practices.Count, own, share, others.Of > 0 ? share.Less(ShareOf(others)) : null,
            WaitCurve.Of([.. trials.Select(t => t.Timed).OfType<TimedTrial>()]),
            new(practices.Sum(p => p.Steps.Count), practices.Sum(p => p.Steps.Of)),
            CountOf.Where(trials.Where(t => t.WaitKept is not null), t => t.WaitKept == true));
    }

    private static Proportion ShareOf(CountOf count) => Proportion.Of(count.Count, count.Of);
}
