using System.Text.Json;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Closing;

/// <summary>Works sealed lines out anew, and compares what they come to with what stands today.</summary>
public static class SealedFigures
{
    private static readonly string[] OfTheCount =
    [
        "owed", "notOwed", "due", "given", "lack", "undecided", "sessionsDue", "sessionsGiven", "sessionsLack", "sessionsUndecided", "status", "windows",
    ];

    /// <summary>The answer to sealed inputs, canonical: what <c>workout</c> answers.</summary>
    /// <exception cref="CaseException">They are no case of kind <c>commitment</c>.</exception>
    public static string Answer(string inputs) => Answer(Read(inputs));

    /// <inheritdoc cref="Answer(string)"/>
    public static string Answer(CommitmentCase inputs)
    {
        var working = inputs.WorkOut();
        return CanonicalJson.Write(json => CommitmentAnswer.Write(json, working));
    }

    /// <summary>What inputs come to, as far as a closed count holds it: without what was given, or is planned, after the days that bear on it.
    /// A make-up given later pays what was brought forward, and the sealed figures stay.</summary>
    /// <param name="lastDay">The last of those days.</param>
    public static IReadOnlyDictionary<string, string> Held(CommitmentCase inputs, int lastDay)
    {
        var within = inputs with { Given = [.. inputs.Given.Where(e => e.Day <= lastDay)], Planned = [] };
        using var answer = JsonDocument.Parse(Answer(within));
        return OfTheCount.Where(name => answer.RootElement.TryGetProperty(name, out _))
            .ToDictionary(name => name, name => answer.RootElement.GetProperty(name).GetRawText());
    }

    /// <inheritdoc cref="Held(CommitmentCase, int)"/>
    public static IReadOnlyDictionary<string, string> Held(string inputs, int lastDay) => Held(Read(inputs), lastDay);

    private static CommitmentCase Read(string inputs) => CommitmentCase.Read(CaseField.Parse(inputs));
}
