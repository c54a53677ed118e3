using System.ComponentModel.DataAnnotations;
using System.Globalization;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Guide;

/// <summary>Times to respond, with trials in which help came first: a plus behind the seconds.</summary>
/// <remarks>As it stands it has the numbers of a published example (Freireich and others 1963), read as seconds: median 23.</remarks>
public sealed class WaitExample : IValidatableObject
{
    private const decimal Longest = 600;

    public string? Times { get; set; } = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+";

    /// <summary>The time at which the share that responded is read off, in seconds.</summary>
    [Range(0, 600, ErrorMessage = "Give 0 to 600 seconds.")]
    public int Within { get; set; } = 10;

    /// <inheritdoc/>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Read() is null)
            yield return new($"Give seconds up to {Longest:0}, with spaces between, a plus behind a time at which help came first; at most {NumberText.Most}.", [nameof(Times)]);
    }

    public WaitCurve WorkOut() => WaitCurve.Of(Read()!);

    private List<TimedTrial>? Read()
    {
        List<TimedTrial> trials = [];
        foreach (var part in NumberText.Parts(Times))
        {
            var answered = !part.EndsWith('+');
            if (!decimal.TryParse(answered ? part : part[..^1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds) || seconds > Longest || trials.Count == NumberText.Most)
                return null;
            trials.Add(new(seconds, answered));
        }
        return trials;
    }
}
