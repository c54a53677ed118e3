using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Account;

/// <summary>An administrator says why they look into learners' records; it holds for one hour of this sign-in.</summary>
public sealed class ReasonModel(CurrentCaller caller, TimeProvider clock) : PageModel
{
    public sealed record ReasonInput
    {
        [Required(ErrorMessage = "Say why."), StringLength(200, MinimumLength = 10, ErrorMessage = "Say why in 10 to 200 characters.")]
        public string Reason { get; init; } = "";
    }

    [BindProperty]
    public ReasonInput Input { get; set; } = new();

    /// <summary>The page that asked; our own addresses only.</summary>
    [BindProperty(SupportsGet = true, Name = "then")]
    public string? Then { get; set; }

    public string As => Words.Of(caller.Value.Is(Role.Administrator) ? Role.Administrator : Role.Director);

    /// <summary>The reason that holds now; null where none does.</summary>
    public string? Standing => SignInTicket.Of(User)?.ReasonAt(clock.GetUtcNow());

    public void OnGet()
    {
    }

    /// <summary>The reason ends before its hour: the next record asks for one again.</summary>
    public async Task<IActionResult> OnPostEndAsync()
    {
        await (SignInTicket.Of(User)! with { Reason = null, ReasonUntil = null }).WriteAsync(HttpContext);
        TempData["Done"] = "You have stopped looking into records.";
        return Redirect("/");
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!ModelState.IsValid)
            return Page();
        await (SignInTicket.Of(User)! with { Reason = Input.Reason.Trim(), ReasonUntil = clock.GetUtcNow().AddHours(1) }).WriteAsync(HttpContext);
        return LocalRedirect(Url.IsLocalUrl(Then) ? Then : "/");
    }
}
