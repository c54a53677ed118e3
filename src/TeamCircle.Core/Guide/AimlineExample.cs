using System.ComponentModel.DataAnnotations;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Guide;

/// <summary>A goal with a value a week: aimline, trend, and what the last points ask the team.</summary>
/// <remarks>As it stands it has the numbers AI-02 and DR-01 of the check values: 1.5 a week, and the last four points below the line.</remarks>
public sealed class AimlineExample : IValidatableObject
{
    private const decimal Largest = 1000;

    [Range(0, 1000, ErrorMessage = "Give 0 to 1,000.")]
    public decimal Start { get; set; } = 30;

    [Range(0, 1000, ErrorMessage = "Give 0 to 1,000.")]
    public decimal Target { get; set; } = 84;

    /// <summary>From the start to the target's date.</summary>
    [Range(1, 200, ErrorMessage = "Give 1 to 200 weeks.")]
    public int Weeks { get; set; } = 36;

    /// <summary>One value a week, the first in the week of the start.</summary>
    public string? Values { get; set; } = "32 31 36 33 34 35 36 37";

    [Range(1, 20, ErrorMessage = "Give 1 to 20 points.")]
    public int InARow { get; set; } = Questions.Usual;

    /// <inheritdoc/>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (NumberText.Decimal(Values, Largest) is not { Count: > 0 })
            yield return new("Give a number for each week, with spaces between.", [nameof(Values)]);
        if (Target == Start)
            yield return new("Give a target that is not the start.", [nameof(Target)]);
    }

    /// <summary>More is better where the target lies above the start.</summary>
    public Better Better => Target > Start ? Better.Up : Better.Down;

    public Aimline Line => new(0, Start, 7 * Weeks, Target, Better);

    /// <summary>Day 0 is that of the start; a value each seventh day.</summary>
    public IReadOnlyList<DayValue> Points => [.. NumberText.Decimal(Values, Largest)!.Select((value, week) => new DayValue(7 * week, value))];

    public Question Question => Questions.Of(Line, Points, InARow);

    /// <summary>By weeks; none for fewer than two points.</summary>
    public TheilSen Trend => TheilSen.Of([.. Points.Select(p => p.Day / 7m)], [.. Points.Select(p => p.Value)], Confidence.Usual);

    /// <summary>When the trend meets the target.</summary>
    public Projection Projection => Projection.Of(Points, Target, Better);
}
