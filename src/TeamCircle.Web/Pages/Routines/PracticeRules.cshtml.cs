using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>How long a review of a card holds, and after how long a device must have asked about holds.</summary>
public sealed class PracticeRulesModel(CurrentCaller caller, SetPracticeRules set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetPracticeRules.Input Input { get; set; } = new();

    public async Task OnGetAsync(CancellationToken stop) => Input = await set.ReadAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = $"Saved: {Say.Count(saved.ReviewMonths, "month")}, {Say.Count(saved.HoldContactHours, "hour")}.";
            return Redirect("/settings");
        }
        var problems = outcome?.Problems ?? [];
        if (problems.AreOvertaken())
            Input = Input with { Version = (await set.ReadAsync(caller.Scope, stop)).Version };
        return this.Refuse(problems);
    }
}
