using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Begins the way to an agency's identity provider. A link and no form: the content policy lets no form of ours lead elsewhere.</summary>
public sealed class ProviderModel(IdentityProviders providers) : PageModel
{
    /// <param name="agency">Its code.</param>
    /// <param name="then">Where to go afterwards; our own addresses only.</param>
    /// <param name="link">Proof that somebody showed just now who they are and wants to link their account.</param>
    /// <param name="join">The tail of an invitation.</param>
    public IActionResult OnGet(string agency, string? then, string? link, string? join) => providers.Of(agency) is { } provider
        ? Challenge(ProviderSignIn.Begin(Url.IsLocalUrl(then) ? then : null, link, join), provider.Scheme)
        : NotFound();
}
