namespace TeamCircle.Core.Road;

/// <summary>How long a way takes and how far it is.</summary>
/// <param name="Tenths">Tenths of the agency's unit; null where nobody entered it.</param>
public readonly record struct RoadWay(int Minutes, int? Tenths);

/// <summary>The agency's table of ways between places.</summary>
/// <param name="ways">By the place from which and the place to which. The way back is the same, unless it has a row of its own.</param>
public sealed class RoadTable(IReadOnlyDictionary<(int From, int To), RoadWay> ways)
{
    /// <summary>Null where neither the way nor the way back is known: unknown, not zero.</summary>
    public RoadWay? Between(int from, int to) => from == to ? new(0, 0)
        : ways.TryGetValue((from, to), out var there) ? there : ways.TryGetValue((to, from), out var back) ? back : null;
}
