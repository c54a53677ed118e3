using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Links one's account with the agency's identity provider, after showing who one is; ends the link.</summary>
public sealed class ProviderLinkModel(CurrentCaller caller, IdentityProviders providers, ReadFactors read, FreshSignIn fresh) : PageModel
{
    /// <summary>What became of the way to the provider, as its answer left it in the address.</summary>
    [BindProperty(SupportsGet = true, Name = "said")]
    public string? Said { get; set; }

    public string? SaidWords => Said switch
    {
        "late" => OwnAccountWords.ProviderLate.In(AccountLanguage.Of(HttpContext)),
        "taken" => ProblemWords.In(AccountLanguage.Of(HttpContext), LinkProvider.IsSomebodyElses.Message),
        _ => null,
    };

    public IdentityProvider Provider { get; private set; } = null!;

    public IReadOnlyList<string> Issuers { get; private set; } = [];

    /// <summary>Leads to the provider and back, to link the two; null where it must be shown first who they are.</summary>
    public string? Way { get; private set; }

    public bool MustUseIt => caller.Lacks is Lack.Provider;

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    private long Account => caller.AccountId!.Value;

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (caller.Find is not { } who || await providers.OfAsync(who.AgencyId, stop) is not { } provider)
            return NotFound();
        Provider = provider;
        Issuers = (await read.RunAsync(Account, stop)).Issuers;
        if (Asks is FreshSignIn.Asks.Nothing)
            Way = $"/sign-in/provider/{provider.Agency}?link={HttpContext.RequestServices.GetRequiredService<IDataProtectionProvider>().SealLink(Account)}";
        return Page();
    }

    /// <summary>Shows again that it is they.</summary>
    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        return await OnGetAsync(stop);
    }

    public async Task<IActionResult> OnPostEndAsync([FromServices] LinkProvider link, [FromServices] KnownBrowsers browsers, string issuer, CancellationToken stop)
    {
        if (await OnPostAsync(stop) is not PageResult page)
            return NotFound();
        if (!ModelState.IsValid)
            return page;
        if (!await link.EndAsync(Account, issuer ?? "", browsers.PlaceOf(HttpContext), stop))
            return NotFound();
        TempData["Done"] = OwnAccountWords.ProviderHasEnded.In(AccountLanguage.Of(HttpContext));
        return Redirect("/account/provider");
    }
}
