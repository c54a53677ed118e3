using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>Effects of a goal's teaching, for the record: for staff.</summary>
public sealed class RecordModel(CurrentCaller caller, ReadEffects read) : PageModel
{
    public EffectsPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, stop) is not { } shown)
            return NotFound();
        Shown = shown;
        return Page();
    }
}
