using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Finding;

/// <summary>The keys there are, and the switch for the two that need no other key held down.</summary>
public sealed class KeysModel : PageModel
{
    public bool AreOn => KeySwitch.IsOn(HttpContext);

    public void OnGet()
    {
        // The page shows what is the same for everybody; without a handler of its own no line of the access matrix would open it.
    }

    /// <param name="on">Null, from a form that does not say: all stays as it is.</param>
    public IActionResult OnPost(bool? on)
    {
        if (on is not { } wanted)
            return RedirectToPage();
        KeySwitch.Set(HttpContext, wanted);
        TempData["Done"] = wanted ? "The keys / and ? are on in this browser." : "The keys / and ? are off in this browser.";
        return RedirectToPage();
    }
}
