using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>How long the learner takes to respond for one goal, over all routines.</summary>
public sealed class GoalWaitModel(CurrentCaller caller, ReadWait read) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int? By { get; set; }

    public WaitView View { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.OfGoalAsync(caller.Scope, id, stop) is not { } page)
            return NotFound();
        View = WaitView.Of(page, By);
        return Page();
    }
}
