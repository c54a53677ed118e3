using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Adds a service to a plan.</summary>
public sealed class AddServiceModel(CurrentCaller caller, ReadPlan read, AddService add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddService.Input Input { get; set; } = new();

    public PlanView PlanDates { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int plan, CancellationToken stop)
    {
        if (!await LoadAsync(id, plan, stop))
            return NotFound();
        (Input.FromDay, Input.ToDay) = (PlanDates.StartDay, PlanDates.EndDay);
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
        TempData["Done"] = "The service is added. Name who gives it.";
        return Redirect($"/learners/{id}/services/{saved.Service}/assign");
    }

    private async Task<bool> LoadAsync(int id, int plan, CancellationToken stop)
    {
        PlanDates = (await read.RunAsync(caller.Scope, id, stop))?.Plans.SingleOrDefault(p => p.Id == plan)!;
        return PlanDates is not null;
    }
}
