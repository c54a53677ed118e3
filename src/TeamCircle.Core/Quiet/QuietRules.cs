using TeamCircle.Core.People;

namespace TeamCircle.Core.Quiet;

/// <summary>Who may set a learner's quiet and end it, and what they say for it.</summary>
public static class QuietRules
{
    /// <summary>A director of the agency, or the learner's case manager.</summary>
    public static bool MaySet(Caller caller, int learner) => caller.Is(Role.Director) || caller.Manages(learner);

    /// <summary>All that is missing; none where it can be set.</summary>
    /// <param name="reason">Why, in a few words for colleagues.</param>
    /// <param name="namedBy">Who asked for it or brought word.</param>
    /// <param name="confirmed">They have read what stops.</param>
    public static IEnumerable<Problem> Check(string? reason, string? namedBy, bool confirmed)
    {
        if (string.IsNullOrWhiteSpace(reason))
            yield return new("Reason", "Say why, in a few words that colleagues may read.");
        if (string.IsNullOrWhiteSpace(namedBy))
            yield return new("NamedBy", "Name who asked for it or brought word.");
        if (!confirmed)
            yield return new("Confirmed", "Read what stops, and tick that you have.");
    }
}
