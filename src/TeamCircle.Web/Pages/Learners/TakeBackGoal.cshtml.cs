using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Takes back a goal that was entered by mistake.</summary>
public sealed class TakeBackGoalModel(CurrentCaller caller, ReadPlan read, TakeBackGoal takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackGoal.Input Input { get; set; } = new();

    public GoalInPlan Goal { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int goal, CancellationToken stop) =>
        await LoadAsync(id, goal, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Goal) = (id, goal);
        var outcome = await takeBack.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = $"The goal {Goal.Code} is taken back.";
        return Redirect($"/learners/{id}/plan");
    }

    private async Task<bool> LoadAsync(int id, int goal, CancellationToken stop)
    {
        Goal = (await read.RunAsync(caller.Scope, id, stop))?.Goal(goal)!;
        return Goal is not null;
    }
}
