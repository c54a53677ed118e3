using System.ComponentModel.DataAnnotations;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Guide;

/// <summary>How likely planned visits are to bring what lacks in one week or month.</summary>
/// <remarks>As it stands it is the example of docs/rules.md, part 9.</remarks>
public sealed class ForecastExample : IValidatableObject
{
    /// <summary>Visits that were planned lately.</summary>
    [Range(0, 500, ErrorMessage = "Give 0 to 500 visits.")]
    public int Before { get; set; } = 11;

    /// <summary>Those of them that took place.</summary>
    [Range(0, 500, ErrorMessage = "Give 0 to 500 visits.")]
    public int Held { get; set; } = 9;

    [Range(0, 5000, ErrorMessage = "Give 0 to 5,000 minutes.")]
    public int Lack { get; set; } = 150;

    /// <summary>Visits that are planned for what lacks.</summary>
    [Range(0, 60, ErrorMessage = "Give 0 to 60 visits.")]
    public int Visits { get; set; } = 6;

    [Range(1, 600, ErrorMessage = "Give 1 to 600 minutes.")]
    public int Minutes { get; set; } = 30;

    /// <inheritdoc/>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Held > Before)
            yield return new("No more visits can have taken place than were planned.", [nameof(Held)]);
    }

    public PastVisits Past => new(Before, Held);

    public Forecast WorkOut() => Forecast.Of(Past, [new(Lack, [.. Enumerable.Repeat(Minutes, Visits)])]);
}
