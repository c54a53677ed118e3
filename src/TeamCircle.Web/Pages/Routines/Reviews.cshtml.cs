using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>For how many months the review of a routine's card holds.</summary>
public sealed class ReviewsModel(CurrentCaller caller, SetReviewMonths set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetReviewMonths.Input Input { get; set; } = new();

    /// <summary>What stands now, where somebody else saved meanwhile.</summary>
    public int? Overtaken { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Input = await set.StartAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = $"Saved: {Say.Count(saved.Months, "month")}.";
            return Redirect("/settings");
        }
        var problems = outcome?.Problems ?? [];
        if (problems.AreOvertaken())
        {
            var now = await set.StartAsync(caller.Scope, stop);
            (Overtaken, Input) = (now.Months, Input with { Version = now.Version });
        }
        return this.Refuse(problems);
    }
}
