using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Account;

/// <summary>One account may work for several agencies; a sign-in acts in one of them.</summary>
public sealed class AgencyModel(CurrentCaller caller, ReadMemberships memberships) : PageModel
{
    public IReadOnlyList<Membership> Agencies { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken stop) => Agencies = await memberships.RunAsync(caller.AccountId!.Value, stop);

    public async Task<IActionResult> OnPostAsync(int agency, CancellationToken stop)
    {
        await OnGetAsync(stop);
        if (Agencies.FirstOrDefault(a => a.Agency == agency) is not { } chosen)
            return NotFound();
        await (SignInTicket.Of(User)! with { Agency = chosen.Agency, Person = chosen.Person, Reason = null }).WriteAsync(HttpContext);
        return LocalRedirect(Landing.Of(chosen.Caller)); // the first page leads to what is lacking there
    }
}
