using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>Records what people decided about probes that were not taken in one window of a goal.</summary>
public sealed class DecideGoalModel(CurrentCaller caller, ReadDecide read, Decide decide) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Decide.Input Input { get; set; } = new();

    public DecideForm Form { get; private set; } = null!;

    /// <param name="day">A day of the window.</param>
    /// <param name="owner">Whose probes; null for all owners together.</param>
    public async Task<IActionResult> OnGetAsync(int id, LocalDate day, int? owner, CancellationToken stop)
    {
        Input = new() { GoalId = id, OwnerId = owner, OnDay = day, DecidedOn = caller.Value.Today };
        return await ShowAsync(stop);
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input = Input with { GoalId = id };
        var outcome = ModelState.IsValid ? await decide.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } decided)
        {
            TempData["Done"] = DecideForm.Done(decided);
            return Redirect($"/audit/goals/{id}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Input));
        return await ShowAsync(stop);
    }

    private async Task<IActionResult> ShowAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, null, Input.GoalId, Input.OwnerId, Input.OnDay, stop) is not { } facts)
            return NotFound();
        Form = new(facts, Input);
        return Page();
    }
}
