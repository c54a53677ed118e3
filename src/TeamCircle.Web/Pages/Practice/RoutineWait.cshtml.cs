using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>How long the learner takes to respond in one routine.</summary>
public sealed class RoutineWaitModel(CurrentCaller caller, ReadWait read) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int? By { get; set; }

    public WaitView View { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.OfRoutineAsync(caller.Scope, id, stop) is not { } page)
            return NotFound();
        View = WaitView.Of(page, By);
        return Page();
    }
}
