using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

public sealed class PasswordModel(CurrentCaller caller, ChangePassword change, KnownBrowsers browsers) : PageModel
{
    [BindProperty]
    public ChangePassword.Input Input { get; set; } = new();

    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        var outcome = await change.RunAsync(caller.AccountId!.Value, caller.SignInId!.Value, Input, browsers.PlaceOf(HttpContext), stop);
        if (outcome.Value is null)
        {
            ModelState.AddProblems(outcome.Problems, nameof(Input));
            return Page();
        }
        TempData["Done"] = OwnAccountWords.PasswordChanged.In(AccountLanguage.Of(HttpContext));
        return RedirectToPage("/Account/Index");
    }
}
