using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>Adds a probe, or a point of teaching data.</summary>
public sealed class ProbeModel(CurrentCaller caller, ReadGoal read, AddProbe add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddProbe.Input Input { get; set; } = new();

    public GoalPage Goal { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Input = new() { OnDay = caller.Value.Today };
        return await ShowAsync(id, stop);
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await add.RunAsync(caller.Value, Operation, Input with { GoalId = id }, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/goals/{id}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Input));
        return await ShowAsync(id, stop);
    }

    private async Task<IActionResult> ShowAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { MayAdd: true } goal)
            return NotFound();
        Goal = goal;
        return Page();
    }
}
