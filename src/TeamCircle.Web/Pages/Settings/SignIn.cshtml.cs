using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Settings;

/// <summary>Whether families need a second factor.</summary>
public sealed class SignInModel(CurrentCaller caller, SetSignInRule set) : PageModel
{
    [BindProperty]
    public SetSignInRule.Input Input { get; set; } = new();

    public async Task OnGetAsync(CancellationToken stop) => Input = await set.ReadAsync(caller.Value.AgencyId, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Input, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = saved.FamiliesNeedSecondFactor ? "Families need a second step from their next request on." : "Families sign in with a password alone.";
            return Redirect("/settings");
        }
        var problems = outcome?.Problems ?? [];
        if (problems.AreOvertaken())
            Input = Input with { Version = (await set.ReadAsync(caller.Value.AgencyId, stop)).Version };
        return this.Refuse(problems);
    }
}
