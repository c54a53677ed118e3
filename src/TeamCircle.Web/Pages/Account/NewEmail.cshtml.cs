using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Where the link to a new address leads. Opening it changes nothing: mail programs open links on their own.</summary>
public sealed class NewEmailModel(ReadLink read, SetNewEmail set) : PageModel
{
    public OfferedLink Link { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string key, CancellationToken stop)
    {
        if (await read.RunAsync(InvitationKind.NewEmail, key, stop) is not { } link)
            return NotFound();
        Link = link;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string key, CancellationToken stop)
    {
        if (await OnGetAsync(key, stop) is not PageResult)
            return NotFound();
        var outcome = await set.RunAsync(key, NetworkAddress.Of(HttpContext), stop);
        if (outcome.Value is null)
            return this.Refuse(outcome.Problems, "");
        TempData["Done"] = OwnAccountWords.Confirmed.In(AccountLanguage.Of(HttpContext));
        return RedirectToPage("/Account/SignIn");
    }
}
