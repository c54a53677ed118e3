using System.ComponentModel.DataAnnotations;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Guide;

/// <summary>One practice of one step, a sign for each trial, counted as every practice is.</summary>
/// <remarks>The order has three prompts. Signs: 0 to 3, how many prompts came before the response hoped for; n, no response; r, refused; x, does not count.</remarks>
public sealed class WithoutHelpExample : IValidatableObject
{
    private const string Step = "step";
    private const int Goal = 1;
    private const char NoResponse = 'n', Refused = 'r', NotCounting = 'x';

    private static readonly AgreedStep Agreed = new(Step, [Goal], [new("one", 12), new("two", 8), new("three", 8)]);

    public string? Trials { get; set; } = "0 1 0 n 2 r 0 1 n";

    /// <inheritdoc/>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        var signs = NumberText.Parts(Trials);
        if (signs.Length > NumberText.Most || !signs.All(s => s is ['0' or '1' or '2' or '3' or NoResponse or Refused or NotCounting]))
            yield return new($"Give 0, 1, 2, 3, n, r or x for each trial, with spaces between; at most {NumberText.Most}.", [nameof(Trials)]);
    }

    /// <summary>What the practice comes to.</summary>
    public GoalFigures WorkOut()
    {
        var record = new PracticeRecord
        {
            Id = Guid.Empty,
            Routine = 1,
            Version = 1,
            Entry = PracticeEntry.Live,
            StartedAt = default,
            EndedAt = default,
            Trials = [.. NumberText.Parts(Trials).Select(sign => new Trial { Id = Guid.Empty, Step = Step, Counts = sign[0] != NotCounting, Events = [.. EventsOf(sign[0])] })],
        };
        return PracticeFigures.Of(record, [Agreed]).Goals[0];
    }

    /// <summary>Wilson's interval of the share without help.</summary>
    public static Proportion Share(GoalFigures figures) => Proportion.Of(figures.WithoutHelp.Count, figures.WithoutHelp.Of);

    private static IEnumerable<TrialEvent> EventsOf(char sign)
    {
        var prompts = sign switch { NoResponse => Agreed.Prompts.Count, Refused or NotCounting => 0, _ => sign - '0' };
        yield return new() { At = 0, Kind = TrialEventKind.CueEnded };
        for (var i = 0; i < prompts; i++)
            yield return new() { At = 12_000 + (8_000 * i), Kind = TrialEventKind.Prompt, Prompt = Agreed.Prompts[i].Key };
        if (sign == Refused)
            yield return new() { At = 40_000, Kind = TrialEventKind.Refusal };
        else if (sign != NoResponse)
            yield return new() { At = 40_000, Kind = TrialEventKind.Response, Response = ResponseKind.HopedFor };
        yield return new() { At = 41_000, Kind = TrialEventKind.End };
    }
}
