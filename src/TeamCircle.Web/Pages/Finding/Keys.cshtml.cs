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

    public IActionResult OnPost(bool on)
    {
        KeySwitch.Set(HttpContext, on);
        TempData["Done"] = on ? "The keys / and ? are on in this browser." : "The keys / and ? are off in this browser.";
        return RedirectToPage();
    }
}
