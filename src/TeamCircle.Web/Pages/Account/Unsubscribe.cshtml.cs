using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Mail;

namespace TeamCircle.Web.Pages.Account;

/// <summary>
/// Where a mail's address to unsubscribe leads: opening it changes nothing, one POST from anywhere stops the kind (RFC 8058). No proof that
/// the form came from us is asked for: whoever holds the address may do this one thing, and mail programs send it by themselves.
/// </summary>
[IgnoreAntiforgeryToken]
public sealed class UnsubscribeModel(Unsubscribe unsubscribe) : PageModel
{
    public MailKind Kind { get; private set; }

    public bool IsDone { get; private set; }

    public async Task<IActionResult> OnGetAsync(string key, CancellationToken stop)
    {
        if (await unsubscribe.FindAsync(key, stop) is not { } offer)
            return NotFound();
        Kind = offer.Kind;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string key, CancellationToken stop)
    {
        if (await unsubscribe.RunAsync(key, stop) is not { } done)
            return NotFound();
        (Kind, IsDone) = (done.Kind, true);
        return Page();
    }
}
