using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>Scores the trials of a practice once more, from a recording: one choice a trial, with no script. Whoever practised it is led to the practice.</summary>
public sealed class ScoreModel(CurrentCaller caller, ReadPractice read, ScorePractice score) : PageModel
{
    private const string NoResponse = "none", SaidNo = "no";

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ScorePractice.Input Input { get; set; } = new();

    /// <summary>One for each trial, in its order: empty, prompts needed, no response, said no.</summary>
    [BindProperty]
    public List<string?> Seen { get; set; } = [];

    public PracticePage Shown { get; private set; } = null!;

    public IReadOnlyList<SelectListItem> Choices => [
        new("Not to be seen", ""), new("Response without help", "0"),
        .. Shown.Card.Prompts.Select((p, i) => new SelectListItem($"Response after {Say.Count(i + 1, "prompt")}: {p.Words}", $"{i + 1}")),
        new("No response", NoResponse), new("Said no", SaidNo)];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop) =>
        !await LoadAsync(id, stop) ? NotFound() : Shown.MayScore ? Page() : Redirect($"/practices/{id}");

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await score.RunAsync(caller.Value, Operation, Input with { Practice = id, Trials = [.. Seen.Select(Score)] }, stop) : null;
        if (outcome?.Value is not { } saved)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = "Your score is kept, beside that of the first observer.";
        return Redirect($"/practices/{saved.Practice}");
    }

    /// <summary>She presses with her elbow. Trial 2</summary>
    public string Label(int trial)
    {
        var step = Shown.Record.Trials[trial].Step;
        var number = Shown.Record.Trials.Take(trial + 1).Count(t => t.Step == step);
        return $"{Shown.Card.Steps.First(s => s.Key == step).Words.TrimEnd('.')}, trial {number}";
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        if (Shown is null)
            return false;
        Seen = [.. Shown.Record.Trials.Select((_, i) => Seen.ElementAtOrDefault(i) ?? "")];
        return true;
    }

    private static ScorePractice.Score Score(string? seen) => seen switch
    {
        NoResponse => new(ScorePractice.Seen.NoResponse),
        SaidNo => new(ScorePractice.Seen.SaidNo),
        _ => int.TryParse(seen, NumberStyles.None, CultureInfo.InvariantCulture, out var prompts) ? new(ScorePractice.Seen.Response, prompts) : new(),
    };
}
