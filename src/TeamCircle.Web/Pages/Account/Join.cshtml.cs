using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Where an invitation's link leads. Opening it uses nothing up: mail programs open links on their own.</summary>
public sealed class JoinModel(CurrentCaller caller, ReadLink read, JoinAgency join, BeginSignIn begin) : PageModel
{
    [BindProperty]
    public JoinAgency.Input Input { get; set; } = new();

    public OfferedLink Link { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string key, CancellationToken stop)
    {
        if (caller.AccountId is not null)
            return SignOutFirst();
        if (await read.RunAsync(InvitationKind.Join, key, stop) is not { } link)
            return NotFound();
        Link = link;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string key, CancellationToken stop)
    {
        if (caller.AccountId is not null)
            return SignOutFirst();
        if (!ModelState.IsValid)
            return await OnGetAsync(key, stop);
        var outcome = await join.RunAsync(key, Input, begin.PlaceOf(HttpContext), stop);
        if (outcome.Value is { } done)
            return LocalRedirect((await begin.RunAsync(HttpContext, done.Account, SecondStep.None, null, stop)).Next);
        if (outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        ModelState.AddProblems(outcome.Problems, nameof(Input));
        return await OnGetAsync(key, stop);
    }

    // A sign-in never becomes another account's: each has a key of its own.
    private RedirectToPageResult SignOutFirst()
    {
        TempData["Done"] = OwnAccountWords.SignOutFirst.In(AccountLanguage.Of(HttpContext));
        return RedirectToPage("/Account/SignOut");
    }
}
