using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Sets the reporting periods, and points out school days that lie in none.</summary>
public sealed class PeriodsModel(CurrentCaller caller, ReadPeriods read, SetPeriods set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetPeriods.Input Input { get; set; } = new();

    /// <summary>What stands now.</summary>
    public PeriodsPage Now { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken stop)
    {
        Now = await read.RunAsync(caller.Scope, stop);
        Input = new() { Rows = [.. Now.Rows, new(), new()], Stamp = Now.Stamp };
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        Now = await read.RunAsync(caller.Scope, stop);
        if (!ModelState.IsValid)
            return Page();
        var outcome = await set.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Stamp = Now.Stamp;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "The reporting periods are saved.";
        return Redirect("/settings/periods");
    }
}
