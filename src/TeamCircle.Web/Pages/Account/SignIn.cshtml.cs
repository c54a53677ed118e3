using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>The one door for people. Somebody who is signed in signs out first: a new sign-in is always a new key.</summary>
public sealed class SignInModel(CurrentCaller caller, SignIn signIn, BeginSignIn begin, KeptForm kept) : PageModel
{
    [BindProperty]
    public SignIn.Input Input { get; set; } = new();

    /// <summary>Where they wanted to go; our own addresses only.</summary>
    [BindProperty(SupportsGet = true, Name = "then")]
    public string? Then { get; set; }

    /// <summary>A form that was sent when the sign-in had ended, sealed.</summary>
    [BindProperty]
    public string? Kept { get; set; }

    /// <summary>That form again, once they are signed in; null otherwise.</summary>
    public KeptForm.Typed? Typed { get; private set; }

    public IActionResult OnGet() => caller.AccountId is null ? Page() : Redirect("/");

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (caller.AccountId is not null)
            return Redirect("/");
        if (!ModelState.IsValid)
            return Page();
        var outcome = await signIn.RunAsync(Input, begin.PlaceOf(HttpContext), stop);
        if (outcome.Value is not { } done)
        {
            ModelState.AddProblems(outcome.Problems, nameof(Input));
            return Page();
        }
        var next = await begin.RunAsync(HttpContext, done.Account, Url.IsLocalUrl(Then) ? Then : null, stop);
        Typed = kept.Open(Kept);
        return Typed is null ? LocalRedirect(next) : Page();
    }
}
