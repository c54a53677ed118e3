using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>A learner's summaries for the family, with their state; the case manager begins one here.</summary>
public sealed class SummariesModel(CurrentCaller caller, ReadSummaries read, BeginSummary begin) : PageModel
{
    public sealed record Form
    {
        public LocalDate? From { get; init; }
        public LocalDate? To { get; init; }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public SummariesPage Summaries { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { From = Summaries.From, To = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await begin.RunAsync(caller.Value, Operation, new() { Learner = id, From = Input.From, To = Input.To }, stop);
        if (outcome.Value is { } saved)
            return Redirect($"/learners/{id}/summaries/{saved.Summary}/edit");
        return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems) : NotFound();
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Summaries = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Summaries is not null;
    }
}
