using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Retention;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Retention;

/// <summary>How long parts of a record are kept, what is due, and what was destroyed; learners by code.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadRetention read, SetRetention set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetRetention.Input Input { get; set; } = new();

    public RetentionPage Shown { get; private set; } = null!;

    public bool MaySet => RetentionRules.MayDecide(caller.Value);

    public async Task OnGetAsync(CancellationToken stop) => Shown = await read.RunAsync(caller.Value, caller.Scope, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is null)
        {
            await OnGetAsync(stop);
            return this.Refuse(outcome?.Problems ?? []);
        }
        TempData["Done"] = "The rule is set. What is due is proposed in the night.";
        return Redirect("/settings/retention");
    }
}
