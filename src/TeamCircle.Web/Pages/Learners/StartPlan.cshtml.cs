using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Starts a learner's next plan by its dates.</summary>
public sealed class StartPlanModel(CurrentCaller caller, StartPlan start) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public StartPlan.Input Input { get; set; } = new();

    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        Input.Learner = id;
        var outcome = await start.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = "The plan is started. Add its services and goals.";
        return Redirect($"/learners/{id}/plan");
    }
}
