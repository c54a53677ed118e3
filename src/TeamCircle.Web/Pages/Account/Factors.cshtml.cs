using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>One's own second factors: sees, adds and removes them. Also where somebody begins who needs one and has none.</summary>
public sealed class FactorsModel(CurrentCaller caller, ReadFactors read, FreshSignIn fresh, BeginSignIn begin) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "then")]
    public string? Then { get; set; }

    /// <summary>Of the form that adds a passkey.</summary>
    public AddPasskey.Input Input { get; private set; } = new();

    public Factors Factors { get; private set; } = null!;

    /// <summary>Recovery codes made with the first factor: in this answer and nowhere else.</summary>
    public IReadOnlyList<string> NewCodes { get; private set; } = [];

    public string Next { get; private set; } = "/account/factors";

    public bool MustSetUp => caller.Lacks is Lack.Factor;

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    public bool IsStale => Asks is not FreshSignIn.Asks.Nothing;

    public string ThenQuery => Url.IsLocalUrl(Then) ? "?then=" + Uri.EscapeDataString(Then) : "";

    private long Account => caller.AccountId!.Value;

    public async Task OnGetAsync(CancellationToken stop) => Factors = await read.RunAsync(Account, stop);

    /// <summary>Shows again that it is they, for the acts of this page.</summary>
    public async Task<IActionResult> OnPostAsync(CancellationToken stop) => await IsFreshAsync(stop) ? RedirectToPage(new { then = Then }) : Page();

    public async Task<IActionResult> OnPostAskPasskeyAsync([FromServices] AskPasskey ask, CancellationToken stop) =>
        new JsonResult(await ask.ForNewOneAsync(Account, HttpContext, stop));

    public async Task<IActionResult> OnPostAddPasskeyAsync(
        [FromServices] AddPasskey add, [FromServices] TimeProvider clock, [Bind(Prefix = nameof(Input))] AddPasskey.Input input, CancellationToken stop)
    {
        Input = input;
        if (!await IsFreshAsync(stop))
            return Page();
        var now = NodaTime.Instant.FromDateTimeOffset(clock.GetUtcNow());
        var outcome = await add.RunAsync(Account, input, begin.PlaceOf(HttpContext), now, HttpContext, stop);
        if (outcome.Value is not { } done)
            return this.Refuse(outcome.Problems);
        Next = await begin.CompleteAsync(HttpContext, SecondStep.Passkey, Url.IsLocalUrl(Then) ? Then : MustSetUp ? null : "/account/factors", stop);
        NewCodes = done.NewCodes;
        return NewCodes.Count > 0 ? Page() : LocalRedirect("/account/factors");
    }

    public Task<IActionResult> OnPostRemoveAuthenticatorAsync([FromServices] RemoveFactor remove, CancellationToken stop) =>
        RemoveAsync(remove, null, "The authenticator app is removed.", stop);

    public Task<IActionResult> OnPostRemovePasskeyAsync([FromServices] RemoveFactor remove, string passkey, CancellationToken stop) =>
        RemoveAsync(remove, passkey ?? "", "The passkey is removed. Delete it on the device too.", stop);

    private async Task<IActionResult> RemoveAsync(RemoveFactor remove, string? passkey, string done, CancellationToken stop)
    {
        if (!await IsFreshAsync(stop))
            return Page();
        if (!await remove.RunAsync(Account, passkey, begin.PlaceOf(HttpContext), stop))
            return NotFound();
        TempData["Done"] = done;
        return RedirectToPage();
    }

    private async Task<bool> IsFreshAsync(CancellationToken stop)
    {
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        await OnGetAsync(stop);
        return ModelState.IsValid;
    }
}
