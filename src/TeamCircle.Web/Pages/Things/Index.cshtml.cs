using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Things;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Things;

/// <summary>What the plan promises beside services, and how each thing stands.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadThings read) : PageModel
{
    public ThingsPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } page)
            return NotFound();
        Shown = page;
        return Page();
    }
}
