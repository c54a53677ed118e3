using System.ComponentModel.DataAnnotations;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Guide;

/// <summary>Two observers of the same trials, a sign for each trial.</summary>
/// <remarks>As it stands it has the trials IO-04 of the check values: 8 of 10 agree.</remarks>
public sealed class AgreementExample : IValidatableObject
{
    private const string Signs = "+-0123nr";

    public string? First { get; set; } = "+ + - + - + + - + +";

    public string? Second { get; set; } = "+ + - + + + + - + -";

    /// <inheritdoc/>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Read(First) is not { } first)
            yield return new("Give one sign for each trial, + or - or a number of prompts, with spaces between.", [nameof(First)]);
        else if (Read(Second) is not { } second)
            yield return new("Give one sign for each trial, + or - or a number of prompts, with spaces between.", [nameof(Second)]);
        else if (first.Count != second.Count)
            yield return new("Both have to code as many trials.", [nameof(Second)]);
    }

    public Agreement WorkOut() => Agreement.Of(Read(First)!, Read(Second)!);

    private static List<char>? Read(string? text)
    {
        var signs = NumberText.Parts(text);
        return signs.Length <= NumberText.Most && signs.All(s => s.Length == 1 && Signs.Contains(s[0])) ? [.. signs.Select(s => s[0])] : null;
    }
}
