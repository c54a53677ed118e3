using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>Says what came of looking at the teaching of a goal whose progress was not enough.</summary>
public sealed class ReviewModel(CurrentCaller caller, ReadReport read, CloseReview close) : PageModel
{
    public sealed record Form
    {
        public int Version { get; init; }
        public string? Word { get; init; }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public ReportPage Report { get; private set; } = null!;

    public ReportGoal Goal { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return Report is null ? NotFound() : Redirect($"/reports/{id}"); // what came of it stands there
        Input = new() { Version = Goal.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int goal, CancellationToken stop)
    {
        var outcome = await close.RunAsync(caller.Value, Operation, new() { Report = id, Goal = goal, Version = Input.Version, Word = Input.Word }, stop);
        if (outcome.Value is null)
            return await LoadAsync(id, goal, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = "What came of it is on record.";
        return Redirect($"/reports/{id}#goal-{goal}");
    }

    private async Task<bool> LoadAsync(int id, int goal, CancellationToken stop)
    {
        Report = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        if (Report?.Goal(goal) is not { MayWrite: true, Review.IsOpen: true } found)
            return false;
        Goal = found;
        return true;
    }
}
