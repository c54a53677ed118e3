using TeamCircle.Core;

namespace TeamCircle.Data.Demonstration;

/// <summary>What every part of the demonstration asks of the portal's own operations.</summary>
internal static class Demonstrated
{
    /// <summary>What was saved.</summary>
    /// <exception cref="InvalidOperationException">It was refused: the demonstration breaks one of the portal's rules.</exception>
    public static T Must<T>(Outcome<T> outcome) where T : class =>
        outcome.Value ?? throw new InvalidOperationException("The demonstration was refused: " + string.Join(" ", outcome.Problems.Select(p => p.Message)));
}
