namespace TeamCircle.Core.Routines;

/// <summary>What holds for a routine's name and its object cue.</summary>
public static class RoutineRules
{
    public const int LongestName = 80, LongestCue = 200;

    /// <param name="taken">The names of the learner's other routines.</param>
    public static IEnumerable<Problem> Check(string? name, string? objectCue, IEnumerable<string> taken)
    {
        if (string.IsNullOrWhiteSpace(name))
            yield return new("Name", "Give the routine the name that the team uses.");
        else if (name.Trim().Length > LongestName)
            yield return new("Name", "Keep the name under 80 letters: it stands on the calendar.");
        else if (taken.Contains(name.Trim(), StringComparer.OrdinalIgnoreCase))
            yield return new("Name", "There is a routine of this name already.");
        if (objectCue?.Trim().Length > LongestCue)
            yield return new("ObjectCue", "Say in under 200 letters what the learner is shown.");
    }
}
