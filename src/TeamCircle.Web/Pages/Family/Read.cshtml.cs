using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Family;

/// <summary>A published summary as the family reads it, in the language that it chose.</summary>
public sealed class ReadModel(CurrentCaller caller, ReadSummaries read) : PageModel
{
    public SummaryView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int summary, CancellationToken stop)
    {
        if (await read.ForFamilyAsync(caller.Value, caller.Scope, id, summary, stop) is not { } page)
            return NotFound();
        Shown = new(page, FamilyLanguage.Of(HttpContext));
        return Page();
    }
}
