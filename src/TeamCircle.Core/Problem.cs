namespace TeamCircle.Core;

/// <summary>One thing that is wrong with what a person asked for, in words that say what to do.</summary>
/// <param name="Field">The name of the input it is about, or an empty string where it is about the whole.</param>
/// <param name="Message">A sentence in sentence case, ending with a full stop, without names of learners.</param>
public sealed record Problem(string Field, string Message)
{
    /// <summary>The field of a problem that means: somebody else saved this first.</summary>
    public const string VersionField = "Version";

    /// <summary>
    /// There is no such thing, or it is none of the caller's business: the two look alike, and the page answers 404.
    /// </summary>
    public static readonly Problem NotFound = new(nameof(NotFound), "There is nothing here.");
}
