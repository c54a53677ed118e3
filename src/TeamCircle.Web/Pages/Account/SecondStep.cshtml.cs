using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Account;

/// <summary>The second step of a sign-in; and a passkey shown again before a change that asks for it.</summary>
public sealed class SecondStepModel(CurrentCaller caller, ReadFactors read, BeginSignIn begin, KeptForm kept) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "then")]
    public string? Then { get; set; }

    /// <summary>A form that was sent when the second step was lacking, sealed.</summary>
    [BindProperty]
    public string? Kept { get; set; }

    public KeptForm.Typed? Typed { get; private set; }

    public Factors Factors { get; private set; } = null!;

    /// <summary>They have shown all already, and do so again.</summary>
    public bool IsAgain => caller.Lacks is not Lack.SecondStep;

    private string? Wanted => Url.IsLocalUrl(Then) ? Then : null;

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        Factors = await read.RunAsync(caller.AccountId!.Value, stop);
        return IsAgain && Factors.Passkeys.Count == 0 ? LocalRedirect(Wanted ?? "/") : Page();
    }

    public async Task<IActionResult> OnPostAsync([FromServices] TakeSecondStep take, [FromForm(Name = "Code")] string? code, CancellationToken stop)
    {
        if (IsAgain)
            return LocalRedirect(Wanted ?? "/");
        var taken = await take.RunAsync(caller.AccountId!.Value, code, begin.PlaceOf(HttpContext), stop);
        return await GoOnAsync(taken, SecondStepWords.CodeRefused.In(AccountLanguage.Of(HttpContext)), stop);
    }

    /// <summary>Asks for one of the account's own passkeys, for the page's script.</summary>
    public async Task<IActionResult> OnPostAskAsync([FromServices] AskPasskey ask, CancellationToken stop) =>
        new JsonResult(await ask.ForSignInAsync(caller.AccountId!.Value, HttpContext, stop));

    public async Task<IActionResult> OnPostPasskeyAsync(
        [FromServices] CheckPasskey check, [FromForm(Name = "Key")] string? key, [FromForm(Name = "Credential")] string? credential, CancellationToken stop)
    {
        var account = caller.AccountId!.Value;
        var isRight = await check.RunAsync(key, account, credential, begin.PlaceOf(HttpContext), HttpContext, stop) == account;
        return await GoOnAsync(isRight ? SecondStep.Passkey : SecondStep.None, SecondStepWords.PasskeyRefused.In(AccountLanguage.Of(HttpContext)), stop);
    }

    private async Task<IActionResult> GoOnAsync(SecondStep taken, string refused, CancellationToken stop)
    {
        if (taken is SecondStep.None)
        {
            ModelState.AddModelError("", refused);
            return await OnGetAsync(stop);
        }
        var next = await begin.CompleteAsync(HttpContext, taken, Wanted, stop);
        if (taken is SecondStep.RecoveryCode)
            TempData["Done"] = "That recovery code is used up. Set up your phone or passkey anew under your account, and print new codes.";
        Typed = kept.Open(Kept);
        return Typed is null ? LocalRedirect(next) : Page();
    }
}
