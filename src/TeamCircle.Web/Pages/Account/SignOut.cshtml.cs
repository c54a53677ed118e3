using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace TeamCircle.Web.Pages.Account;

public sealed class SignOutModel : PageModel
{
    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostAsync()
    {
        await HttpContext.SignOutAsync();
        // Not "storage": what a device has not sent yet stays, encrypted, until its person signs in again.
        Response.Headers["Clear-Site-Data"] = "\"cache\"";
        return RedirectToPage("/Account/SignIn");
    }
}
