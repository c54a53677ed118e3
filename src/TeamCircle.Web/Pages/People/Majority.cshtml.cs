using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>From what age rights over the record are the learner's own.</summary>
public sealed class MajorityModel(CurrentCaller caller, SetMajority set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetMajority.Input Input { get; set; } = new();

    public async Task OnGetAsync(CancellationToken stop) => Input = await set.ReadAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = await set.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = "Saved.";
            return Redirect("/settings");
        }
        if (outcome.Problems.AreOvertaken())
            Input = Input with { Version = (await set.ReadAsync(caller.Scope, stop)).Version };
        return this.Refuse(outcome.Problems);
    }
}
