using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Progress;

/// <summary>Under which conditions points are looked at; null asks for nothing. A point of which nobody said it is left out where something is asked.</summary>
/// <param name="AlertOnly">Only those with the learner quiet or active alert at the start.</param>
public sealed record ConditionFilter(bool AlertOnly = false, string? Position = null, string? Side = null, string? Place = null)
{
    public bool AsksForSomething => AlertOnly || Position is not null || Side is not null || Place is not null;

    public bool Keeps(GoalPoint point) =>
        (!AlertOnly || point.State is StateOfLearner.QuietAlert or StateOfLearner.ActiveAlert)
        && IsAsked(Position, point.Position) && IsAsked(Side, point.Side) && IsAsked(Place, point.Place);

    // What different people typed in different cases is the same condition.
    private static bool IsAsked(string? asked, string? said) => asked is null || string.Equals(asked, said, StringComparison.OrdinalIgnoreCase);
}
