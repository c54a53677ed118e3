using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Disputes;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Disputes;

/// <summary>The holds on a learner's records: those that stand and those that ended.</summary>
public sealed class HoldsModel(CurrentCaller caller, ReadRecordHolds read) : PageModel
{
    public RecordHoldsPage Holds { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } holds)
            return NotFound();
        Holds = holds;
        return Page();
    }
}
