using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>A learner's holds: those that stand and those that ended.</summary>
public sealed class HoldsModel(CurrentCaller caller, ReadHolds read) : PageModel
{
    public HoldsPage Holds { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } holds)
            return NotFound();
        Holds = holds;
        return Page();
    }
}
