using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Changes the parts of a goal that the caller writes. Who loses a race sees both versions.</summary>
public sealed class EditGoalModel(CurrentCaller caller, ReadPlan read, ChangeGoal change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangeGoal.Input Input { get; set; } = new();

    public GoalInPlan Goal { get; private set; } = null!;

    public GoalRights Rights { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        Input = new() { Version = Goal.Version, Parts = PartsOf(Goal) };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Goal) = (id, goal);
        var outcome = await change.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Goal.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "The goal is saved.";
        return Redirect($"/learners/{id}/plan#goal-{goal}");
    }

    private async Task<bool> LoadAsync(int id, int goal, CancellationToken stop)
    {
        Goal = (await read.RunAsync(caller.Scope, id, stop))?.Goal(goal)!;
        Rights = Goal is null ? default : new(caller.Value.Manages(id), Goal.OwnedBy(caller.Value.PersonId, caller.Value.Today));
        return Rights.Any;
    }

    private static GoalInput PartsOf(GoalInPlan goal)
    {
        var parts = new GoalInput
        {
            Area = goal.Area,
            Statement = goal.Statement,
            Target = goal.Target,
            TargetDay = goal.TargetDay,
            Objectives = [.. goal.Objectives.Select(o => new ObjectiveInput { Statement = o.Statement, TargetDay = o.TargetDay }), new(), new()],
        };
        parts.Take(goal.Terms);
        return parts;
    }
}
