using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Gives a plan other dates.</summary>
public sealed class PlanDatesModel(CurrentCaller caller, ReadPlan read, ChangePlan change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangePlan.Input Input { get; set; } = new();

    public PlanView Now { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int plan, CancellationToken stop)
    {
        if (!await LoadAsync(id, plan, stop))
            return NotFound();
        (Input.Version, Input.StartDay, Input.EndDay) = (Now.Version, Now.StartDay, Now.EndDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int plan, CancellationToken stop)
    {
        if (!await LoadAsync(id, plan, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Plan) = (id, plan);
        var outcome = await change.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Now.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "The plan's dates are saved.";
        return Redirect($"/learners/{id}/plan");
    }

    private async Task<bool> LoadAsync(int id, int plan, CancellationToken stop)
    {
        Now = (await read.RunAsync(caller.Scope, id, stop))?.Plans.SingleOrDefault(p => p.Id == plan)!;
        return Now is not null;
    }
}
