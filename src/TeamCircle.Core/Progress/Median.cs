namespace TeamCircle.Core.Progress;

/// <summary>The middle value of a list; of an even number the mean of the two in the middle.</summary>
internal static class Median
{
    /// <param name="values">At least one, in any order.</param>
    public static decimal Of(IEnumerable<decimal> values)
    {
        var ordered = values.Order().ToList();
        var middle = ordered.Count / 2;
        return ordered.Count % 2 == 1 ? ordered[middle] : (ordered[middle - 1] + ordered[middle]) / 2;
    }
}
