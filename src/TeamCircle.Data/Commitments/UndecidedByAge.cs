using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>What nobody has decided about, by how long ago the oldest such window of a line closed.</summary>
/// <param name="Name">Words for the age.</param>
/// <param name="Lines">Places in <see cref="Audit.Lines"/>, the oldest first.</param>
public sealed record UndecidedByAge(string Name, IReadOnlyList<int> Lines)
{
    // Up to and including so many days; our own steps.
    private static readonly (int Days, string Name)[] Steps =
        [(14, "up to two weeks"), (28, "two to four weeks"), (56, "four to eight weeks"), (int.MaxValue, "more than eight weeks")];

    /// <summary>The groups that hold something, the oldest first.</summary>
    public static IReadOnlyList<UndecidedByAge> Of(Audit audit)
    {
        var byAge = Enumerable.Range(0, audit.Lines.Count).Where(i => audit.Lines[i].Balance.UndecidedSince != Day.None)
            .OrderBy(i => audit.Lines[i].Balance.UndecidedSince)
            .ToLookup(i => Array.FindIndex(Steps, s => audit.At.AsOf - audit.Lines[i].Balance.UndecidedSince <= s.Days));
        return [.. byAge.OrderByDescending(g => g.Key).Select(g => new UndecidedByAge(Steps[g.Key].Name, [.. g]))];
    }
}
