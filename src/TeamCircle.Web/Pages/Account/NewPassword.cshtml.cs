using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Where a new-password link leads. Whoever uses it signs in afterwards as always.</summary>
public sealed class NewPasswordModel(ReadLink read, SetPasswordByLink set, BeginSignIn begin) : PageModel
{
    [BindProperty]
    public SetPasswordByLink.Input Input { get; set; } = new();

    public OfferedLink Link { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string key, CancellationToken stop)
    {
        if (await read.RunAsync(InvitationKind.NewPassword, key, stop) is not { } link)
            return NotFound();
        Link = link;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string key, CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return await OnGetAsync(key, stop);
        var outcome = await set.RunAsync(key, Input, begin.PlaceOf(HttpContext).Address, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = OwnAccountWords.PasswordIsSet.In(AccountLanguage.Of(HttpContext));
            return RedirectToPage("/Account/SignIn");
        }
        if (outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        ModelState.AddProblems(outcome.Problems, nameof(Input));
        return await OnGetAsync(key, stop);
    }
}
