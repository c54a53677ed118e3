using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>A goal with its commitment and all that was recorded about it.</summary>
public sealed class GoalModel(CurrentCaller caller, ReadGoal read) : PageModel
{
    public GoalPage Goal { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } goal)
            return NotFound();
        Goal = goal;
        return Page();
    }
}
