using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>Whether families may tell the team something on their page.</summary>
public sealed class TellingModel(CurrentCaller caller, SetFamilyTells set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetFamilyTells.Input Input { get; set; } = new();

    public async Task OnGetAsync(CancellationToken stop) => Input = await set.ReadAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = await set.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = saved.On ? "Families can tell the team on their page." : "The family's page only shows.";
            return Redirect("/settings");
        }
        if (outcome.Problems.AreOvertaken())
            Input = Input with { Version = (await set.ReadAsync(caller.Scope, stop)).Version };
        return this.Refuse(outcome.Problems);
    }
}
