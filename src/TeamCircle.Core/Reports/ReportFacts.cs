using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Reports;

/// <summary>The figures of a progress report as they were brought in: one value, kept as one document, so that what was signed stays what it was.</summary>
/// <param name="AsOf">What was recorded up to this day is in them.</param>
/// <param name="Goals">In the plan's order.</param>
public sealed record ReportFacts(LocalDate AsOf, IReadOnlyList<GoalFacts> Goals)
{
    public string Write() => JsonSerializer.Serialize(this, StrictJson.Options);

    /// <exception cref="JsonException">The text was not made by <see cref="Write"/>.</exception>
    public static ReportFacts Read(string json) => JsonSerializer.Deserialize<ReportFacts>(json, StrictJson.Options)!;
}

/// <summary>What is on record about one goal in a reporting period.</summary>
/// <param name="Statement">As it stood in the plan when the figures were brought in.</param>
/// <param name="ProbesDue">Probes asked for in windows that are past, over all owners; 0 where none are asked.</param>
/// <param name="ProbesDone">How many of these were taken; never more than were due.</param>
/// <param name="Criterion">Null where none is agreed.</param>
/// <param name="Baseline">The level from which the goal starts; null where nobody entered one.</param>
/// <param name="Before">The level at the end of the time before the period; null without points in it.</param>
/// <param name="Now">The level at the end of the period, or as of the day of the figures; null without points in the period.</param>
/// <param name="MasteredOn">The day on which the criterion held, if nothing has reopened the goal since; null otherwise.</param>
public sealed record GoalFacts(
    int Goal, string Area, string Statement, Measure Measure, Better Better, int ProbesDue, int ProbesDone, decimal? Target = null,
    LocalDate? TargetDay = null, CriterionFacts? Criterion = null, decimal? Baseline = null, Level? Before = null, Level? Now = null, LocalDate? MasteredOn = null)
{
    /// <summary>How far the level moved, in the measure's unit; null where either end is missing. More is better or worse as <see cref="Better"/> says.</summary>
    /// <remarks>From the level before the period, or from the baseline where the goal had none before.</remarks>
    [JsonIgnore]
    public decimal? Change => Now is { } now && (Before?.Middle ?? Baseline) is { } from ? now.Middle - from : null;
}

/// <summary>On how many of the last days, with what (<see cref="Progress.Criterion"/>).</summary>
public sealed record CriterionFacts(int Days, int OfLast, int? Fewest = null, int? People = null, int? Places = null);

/// <summary>Where a goal stands: the middle value of its last points, each of them named.</summary>
/// <param name="Middle">The median of <paramref name="Points"/>, in the measure's unit.</param>
/// <param name="Points">The last <see cref="MostPoints"/> at most, oldest first; at least one.</param>
public sealed record Level(decimal Middle, IReadOnlyList<LevelPoint> Points)
{
    /// <summary>Three: one lucky or unlucky day does not make a level. Our choice.</summary>
    public const int MostPoints = 3;

    /// <summary>The level of the last points of a series; null of none.</summary>
    /// <param name="points">In the order in which they were taken.</param>
    public static Level? Of(IReadOnlyList<LevelPoint> points)
    {
        LevelPoint[] last = [.. points.TakeLast(MostPoints)];
        return last.Length == 0 ? null : new(Median.Of(last.Select(p => p.Value)), last);
    }
}

/// <param name="Of">Opportunities; null where nobody counted them.</param>
/// <param name="Conditions">As they were recorded, in words; null where nobody said.</param>
public sealed record LevelPoint(LocalDate Day, decimal Value, int? Of = null, string? Conditions = null);

/// <summary>All that a signature of a report stands for.</summary>
public sealed record ReportContent(int Edition, ReportFacts? Facts, IReadOnlyList<GoalSaid> Goals)
{
    /// <summary>SHA-256 of the content in lower-case hexadecimal: two contents with the same hash say the same.</summary>
    public string Hash() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(this, StrictJson.Options))));
}

/// <summary>What the team says of one goal.</summary>
/// <param name="Status">Null until somebody has joined what the owners wrote.</param>
/// <param name="Reason">For <see cref="ReportStatus.NotWorkedOn"/>: why.</param>
/// <param name="Words">The joined paragraph.</param>
public sealed record GoalSaid(int Goal, ReportStatus? Status = null, string? Reason = null, string? Words = null);
