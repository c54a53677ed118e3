using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Names the owners of a goal, and when.</summary>
public sealed class OwnersModel(CurrentCaller caller, ReadPlan read, ReadStaff staff, AddOwner add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddOwner.Input Input { get; set; } = new();

    public GoalInPlan Goal { get; private set; } = null!;

    public IReadOnlyList<NamedId> People { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        (Input.FromDay, Input.ToDay) = (Goal.FromDay, Goal.ToDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Goal) = (id, goal);
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = saved.JoinedTeam ? "Saved. They are on the learner's team now." : "Saved.";
        return Redirect($"/learners/{id}/goals/{goal}/owners");
    }

    private async Task<bool> LoadAsync(int id, int goal, CancellationToken stop)
    {
        Goal = (await read.RunAsync(caller.Scope, id, stop))?.Goal(goal)!;
        People = await staff.RunAsync(caller.Scope, caller.Value.Today, stop);
        return Goal is not null;
    }
}
