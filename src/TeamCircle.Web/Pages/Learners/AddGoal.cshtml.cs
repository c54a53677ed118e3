using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Adds a goal to a plan.</summary>
public sealed class AddGoalModel(CurrentCaller caller, ReadPlan read, ReadStaff staff, AddGoal add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddGoal.Input Input { get; set; } = new();

    public PlanView PlanDates { get; private set; } = null!;

    public IReadOnlyList<NamedId> People { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, int plan, CancellationToken stop)
    {
        if (!await LoadAsync(id, plan, stop))
            return NotFound();
        (Input.FromDay, Input.ToDay) = (PlanDates.StartDay, PlanDates.EndDay);
        Input.Goal.Objectives = [new(), new(), new()];
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int plan, CancellationToken stop)
    {
        if (!await LoadAsync(id, plan, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Plan) = (id, plan);
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = "The goal is added.";
        return Redirect($"/learners/{id}/plan#goal-{saved.Goal}");
    }

    private async Task<bool> LoadAsync(int id, int plan, CancellationToken stop)
    {
        PlanDates = (await read.RunAsync(caller.Scope, id, stop))?.Plans.SingleOrDefault(p => p.Id == plan)!;
        People = await staff.RunAsync(caller.Scope, caller.Value.Today, stop);
        return PlanDates is not null;
    }
}
