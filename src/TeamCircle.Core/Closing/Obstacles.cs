using NodaTime;

namespace TeamCircle.Core.Closing;

/// <summary>What can stand in the way of closing a learner's count.</summary>
public enum ObstacleKind
{
    /// <summary>Visits of the period that were planned and never logged.</summary>
    NotLogged,

    /// <summary>Visits logged as given together that the named partner has not confirmed.</summary>
    NotConfirmed,

    /// <summary>Visits that assistants logged and that nobody has countersigned.</summary>
    NotCountersigned,

    /// <summary>Things about the learner that a device sent and that wait for a person.</summary>
    SetAside,

    /// <summary>Nobody has begun the progress report of the period, though goals were worked on.</summary>
    ReportNotBegun,

    /// <summary>The progress report of the period is not finished: parts or signatures are missing.</summary>
    ReportNotFinished,

    /// <summary>Minutes, sessions or probes that were not given and that nobody decided about.</summary>
    Undecided,

    /// <summary>Visits and decisions that count nowhere.</summary>
    CountsNowhere,
}

/// <summary>One thing that stands in the way, of one line or of the learner as a whole.</summary>
/// <param name="Service">For what is about one service.</param>
/// <param name="Goal">For what is about one goal.</param>
/// <param name="Count">How many visits, things, or minutes (sessions or probes where no minutes are undecided).</param>
/// <param name="Days">The days that it is about, oldest first; empty where it names none.</param>
public sealed record Obstacle(ObstacleKind Kind, int? Service, int? Goal, int Count, IReadOnlyList<LocalDate> Days)
{
    /// <summary>Tells it from the others of one count; the same from reading to signing.</summary>
    public string Key => FormattableString.Invariant($"{Kind}-{Service}-{Goal}");
}

/// <summary>What was left standing when a count was closed, with the case manager's own word why.</summary>
public sealed record LeftStanding(ObstacleKind Kind, int Count, IReadOnlyList<LocalDate> Days, string Why, int? Service = null, int? Goal = null);

/// <summary>What has to hold before a count is closed, restated or opened again (docs/rules.md, part 7).</summary>
public static class ClosingRules
{
    public const int LongestWord = 1000, LongestCredential = 200;

    /// <summary>What the case manager's signature under a statement means.</summary>
    public const string Meaning =
        "As case manager I close this count. It reports what was recorded up to this day; what was not given was decided by the people named, or stands as named here.";

    /// <summary>The field for the word on an obstacle.</summary>
    public static string WhyField(string key) => $"Why[{key}]";

    /// <summary>What was said when a count was sealed, by <see cref="Obstacle.Key"/>: it holds on for the next edition where nothing else is said.</summary>
    public static Dictionary<string, string?> Said(IEnumerable<LeftStanding> left) => left
        .GroupBy(l => new Obstacle(l.Kind, l.Service, l.Goal, l.Count, l.Days).Key).ToDictionary(l => l.Key, l => (string?)l.First().Why);

    /// <summary>All problems of a closing: it comes after the period's end, under a credential, with a word on everything that is left standing.</summary>
    /// <param name="words">By <see cref="Obstacle.Key"/>; a missing or empty one says nothing.</param>
    public static IEnumerable<Problem> Check(
        LocalDate today, LocalDate periodEnd, IEnumerable<Obstacle> obstacles, IReadOnlyDictionary<string, string?> words, string? credential)
    {
        if (today <= periodEnd)
            yield return new("", "The period is not over yet. A count can be closed from the day after it on.");
        foreach (var obstacle in obstacles)
        {
            var word = words.GetValueOrDefault(obstacle.Key);
            if (string.IsNullOrWhiteSpace(word))
                yield return new(WhyField(obstacle.Key), "Resolve this, or say why the count is closed although it stands.");
            else if (word.Trim().Length > LongestWord)
                yield return new(WhyField(obstacle.Key), $"Keep it under {LongestWord} letters.");
        }
        if (string.IsNullOrWhiteSpace(credential) || credential.Trim().Length > LongestCredential)
            yield return new("Credential", "Give the credential under which you sign, such as a licence and its number.");
    }

    /// <summary>The obstacles with their words, once <see cref="Check"/> finds no problem.</summary>
    public static IReadOnlyList<LeftStanding> Left(IEnumerable<Obstacle> obstacles, IReadOnlyDictionary<string, string?> words) =>
        [.. obstacles.Select(o => new LeftStanding(o.Kind, o.Count, o.Days, words[o.Key]!.Trim(), o.Service, o.Goal))];

    /// <summary>All problems of a reason: for a restatement, for asking to open a count again, and for the answer.</summary>
    public static IEnumerable<Problem> CheckReason(string field, string? reason, string message)
    {
        if (string.IsNullOrWhiteSpace(reason))
            yield return new(field, message);
        else if (reason.Trim().Length > LongestWord)
            yield return new(field, $"Keep it under {LongestWord} letters.");
    }
}
