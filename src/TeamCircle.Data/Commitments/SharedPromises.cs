using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Makes the promises of lines with their windows, and one for all lines that promise the same on the same days.</summary>
/// <remarks>What changes while the line runs is made for each line: it is seldom alike.</remarks>
internal sealed class SharedPromises(WindowCatalog windows)
{
    private readonly Dictionary<Same, (Promise Promise, PromiseWindows Windows)> _known = [];

    private readonly record struct Same(
        Every Every, DateRange Dates, DateRange Plan, PromiseVersion Version, LineTerms Terms, ShortWindow? ShortWindow, Wording? Wording);

    /// <param name="plan">The plan's dates.</param>
    /// <param name="versions">Of the service or goal, oldest first, also those that are not in force within the dates.</param>
    public (Promise Promise, PromiseWindows Windows) Of(
        Every every, DateRange dates, DateRange plan, ReadOnlySpan<PromiseVersion> versions, LineTerms terms = LineTerms.Regular, ShortWindow? shortWindow = null, Wording? wording = null)
    {
        if (versions is not [var only] || only.From > dates.First)
            return Make(Within(dates, versions));
        var same = new Same(every, dates, plan, only with { From = dates.First }, terms, shortWindow, wording);
        if (!_known.TryGetValue(same, out var known))
            _known[same] = known = Make([same.Version]);
        return known;

        (Promise, PromiseWindows) Make(PromiseVersion[] within)
        {
            var promise = new Promise(every, dates, within) { Terms = terms, ShortWindow = shortWindow, Wording = wording };
            return (promise, windows.Of(promise, plan));
        }
    }

    /// <summary>The versions in force within a line's dates; nothing is promised before the first one.</summary>
    private static PromiseVersion[] Within(DateRange dates, ReadOnlySpan<PromiseVersion> versions)
    {
        var within = new List<PromiseVersion> { new(dates.First, 0) };
        foreach (var version in versions)
        {
            if (version.From <= dates.First)
                within[0] = version with { From = dates.First };
            else if (version.From <= dates.Last)
                within.Add(version);
        }
        return [.. within];
    }
}
