using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Sets up an authenticator app. The secret stands sealed in the page until a code shows that the app has it; only then is it stored.</summary>
public sealed class AuthenticatorModel(CurrentCaller caller, AuthenticatorSeal seal, FreshSignIn fresh, BeginSignIn begin) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "then")]
    public string? Then { get; set; }

    /// <summary>A form that was sent when the second step was lacking, sealed.</summary>
    [BindProperty]
    public string? Kept { get; set; }

    [BindProperty]
    public string? Offer { get; set; }

    [BindProperty]
    public string? NewCode { get; set; }

    public string Key { get; private set; } = "";
    public QrPicture Picture { get; private set; } = null!;

    /// <summary>Null until it is set up; then recovery codes, in this answer and nowhere else, or none where the account has some already.</summary>
    public IReadOnlyList<string>? NewCodes { get; private set; }

    public KeptForm.Typed? Typed { get; private set; }

    public string Next { get; private set; } = "/account/factors";

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    private long Account => caller.AccountId!.Value;

    public Task OnGetAsync([FromServices] ReadFactors read, CancellationToken stop) => ShowAsync(read, AuthenticatorSecret.Make(), stop);

    /// <summary>The same page for somebody whose form waits until the app is set up.</summary>
    public async Task<IActionResult> OnPostKeptAsync([FromServices] ReadFactors read, CancellationToken stop)
    {
        await OnGetAsync(read, stop);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync([FromServices] ReadFactors read, [FromServices] SetAuthenticator set, [FromServices] KeptForm kept, CancellationToken stop)
    {
        if (seal.OpenOffer(Offer, Account) is not { } secret)
            return await OnPostKeptAsync(read, stop);
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        var outcome = ModelState.IsValid ? await set.RunAsync(Account, secret, NewCode, begin.PlaceOf(HttpContext), stop) : null;
        if (outcome?.Value is { } done)
        {
            NewCodes = done.NewCodes;
            Next = await begin.CompleteAsync(HttpContext, SecondStep.Code, Url.IsLocalUrl(Then) ? Then : caller.Lacks is Lack.Factor ? null : "/account/factors", stop);
            Typed = kept.Open(Kept);
            return Page();
        }
        ModelState.AddProblems(outcome?.Problems ?? [], "");
        await ShowAsync(read, secret, stop);
        return Page();
    }

    private async Task ShowAsync(ReadFactors read, AuthenticatorSecret secret, CancellationToken stop)
    {
        ModelState.Remove(nameof(Offer));
        Offer = seal.Offer(secret, Account);
        (Key, Picture) = (secret.Typed, QrPicture.Of(secret.AddressFor((await read.RunAsync(Account, stop)).Email)));
    }
}
