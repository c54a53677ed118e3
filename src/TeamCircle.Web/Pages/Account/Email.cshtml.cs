using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Asks for a link to a new e-mail address.</summary>
public sealed class EmailModel(CurrentCaller caller, ReadFactors read, AskForNewEmail ask, FreshSignIn fresh) : PageModel
{
    [BindProperty]
    public AskForNewEmail.Input Input { get; set; } = new();

    /// <summary>The address with which they sign in.</summary>
    public string Now { get; private set; } = "";

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    public async Task OnGetAsync(CancellationToken stop) => Now = (await read.RunAsync(caller.AccountId!.Value, stop)).Email;

    public async Task<IActionResult> OnPostAsync([FromServices] KnownBrowsers browsers, CancellationToken stop)
    {
        await OnGetAsync(stop);
        if (ModelState.IsValid && await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        if (!ModelState.IsValid)
            return Page();
        var outcome = await ask.RunAsync(caller.AccountId!.Value, Input, browsers.PlaceOf(HttpContext), stop);
        if (outcome.Value is not { } done)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = OwnAccountWords.LinkGoes.In(AccountLanguage.Of(HttpContext), done.Email);
        return Redirect("/account");
    }
}
