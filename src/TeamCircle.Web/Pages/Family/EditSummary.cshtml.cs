using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>The draft of a summary: its texts in both languages, and how hard the English is to read.</summary>
public sealed class EditSummaryModel(CurrentCaller caller, ReadSummaries read, WriteSummary write) : PageModel
{
    private Dictionary<string, ReadingLevel> _levels = [];

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public WriteSummary.Input Input { get; set; } = new();

    public SummaryPage Shown { get; private set; } = null!;

    /// <summary>Null for a text without English words.</summary>
    public ReadingLevel? Level(string field) => _levels.GetValueOrDefault(field);

    public async Task<IActionResult> OnGetAsync(int id, int summary, CancellationToken stop)
    {
        if (!await LoadAsync(id, summary, stop))
            return Shown is null ? NotFound() : Redirect($"/learners/{id}/summaries/{summary}"); // what is published can still be read
        Input = WriteSummary.Input.Of(id, summary, Shown.Version, Shown.Content);
        Judge(Shown.Content);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int summary, bool stay, CancellationToken stop)
    {
        Input = Input with { Learner = id, Summary = summary };
        var outcome = await write.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = "The draft is saved.";
            return Redirect($"/learners/{id}/summaries/{summary}{(stay ? "/edit" : "")}");
        }
        if (!await LoadAsync(id, summary, stop))
            return Shown is null ? NotFound() : Redirect($"/learners/{id}/summaries/{summary}");
        Judge(Input.Onto(Shown.Content));
        return this.Refuse(outcome.Problems);
    }

    private void Judge(SummaryContent content) => _levels = SummaryRules.Levels(content).ToDictionary(l => l.Field, l => l.Level);

    private async Task<bool> LoadAsync(int id, int summary, CancellationToken stop)
    {
        Shown = (await read.OneAsync(caller.Value, caller.Scope, id, summary, stop))!;
        return Shown is { MayWrite: true, State: SummaryState.Draft };
    }
}
