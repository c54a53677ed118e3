using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>The one door for people. Somebody who is signed in signs out first: a new sign-in is always a new key.</summary>
public sealed class SignInModel(CurrentCaller caller, BeginSignIn begin, KeptForm kept, DemonstrationAccounts demonstration) : PageModel
{
    public SignIn.Input Input { get; private set; } = new();

    /// <summary>Where they wanted to go; our own addresses only.</summary>
    [BindProperty(SupportsGet = true, Name = "then")]
    public string? Then { get; set; }

    /// <summary>A form that was sent when the sign-in had ended, sealed.</summary>
    [BindProperty]
    public string? Kept { get; set; }

    /// <summary>That form again, once they are signed in; null otherwise.</summary>
    public KeptForm.Typed? Typed { get; private set; }

    /// <summary>What they must show before that form can be sent; null where nothing.</summary>
    public LackingForm? Lacking { get; private set; }

    /// <summary>What became of a way by an identity provider, as its answer left it in the address.</summary>
    [BindProperty(SupportsGet = true, Name = "said")]
    public string? Said { get; set; }

    public Phrase? SaidWords => Said switch
    {
        "refused" => OwnAccountWords.ProviderRefused,
        "unknown" => OwnAccountWords.ProviderUnknown,
        "ended" => OwnAccountWords.ProviderEnded,
        _ => null,
    };

    public string ThenQuery => Wanted is null ? "" : "?then=" + Uri.EscapeDataString(Wanted);

    public bool IsDemonstration => demonstration.AreLetIn;

    private string? Wanted => Url.IsLocalUrl(Then) ? Then : null;

    public IActionResult OnGet() => caller.AccountId is null ? Page() : Redirect("/");

    public async Task<IActionResult> OnPostAsync([FromServices] SignIn signIn, [Bind(Prefix = nameof(Input))] SignIn.Input input, CancellationToken stop)
    {
        Input = input;
        if (caller.AccountId is not null)
            return Redirect("/");
        if (!ModelState.IsValid)
            return Page();
        var outcome = await signIn.RunAsync(input, begin.PlaceOf(HttpContext), stop);
        if (outcome.Value is { } done)
            return GoOn(await begin.RunAsync(HttpContext, done.Account, SecondStep.None, Wanted, stop));
        ModelState.AddProblems(outcome.Problems, nameof(Input));
        return Page();
    }

    /// <summary>Asks for a passkey, for the page's script: whichever the person has for this portal.</summary>
    public async Task<IActionResult> OnPostAskAsync([FromServices] AskPasskey ask, CancellationToken stop) =>
        new JsonResult(await ask.ForSignInAsync(null, HttpContext, stop));

    public async Task<IActionResult> OnPostPasskeyAsync(
        [FromServices] CheckPasskey check, [FromForm(Name = "Key")] string? key, [FromForm(Name = "Credential")] string? credential, CancellationToken stop)
    {
        if (caller.AccountId is not null)
            return Redirect("/");
        if (await check.RunAsync(key, null, credential, begin.PlaceOf(HttpContext), HttpContext, stop) is { } account)
            return GoOn(await begin.RunAsync(HttpContext, account, SecondStep.Passkey, Wanted, stop));
        ModelState.AddModelError("", "That passkey opens nothing here. Try again, or sign in with your password.");
        return Page();
    }

    private IActionResult GoOn(BeginSignIn.Begun begun)
    {
        Typed = begun.Lacks is Lack.Nothing ? kept.Open(Kept) : null;
        Lacking = begun.Lacks is not Lack.Nothing && kept.Open(Kept) is not null ? new(begun.Lacks, Kept!) : null;
        return Typed is null && Lacking is null ? LocalRedirect(begun.Next) : Page();
    }
}
