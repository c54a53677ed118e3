using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>One routine, many hands: for the team alone.</summary>
public sealed class HandsModel(CurrentCaller caller, ReadHands read) : PageModel
{
    public HandsPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, stop) is not { } shown)
            return NotFound();
        Shown = shown;
        return Page();
    }
}
