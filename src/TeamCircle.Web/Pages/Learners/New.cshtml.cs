using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Takes a learner in, with the first plan's dates.</summary>
public sealed class NewModel(CurrentCaller caller, AddLearner add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddLearner.Input Input { get; set; } = new();

    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = "The learner is taken in. Add the plan's services and goals.";
        return Redirect($"/learners/{saved.Learner}/plan");
    }
}
