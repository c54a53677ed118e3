using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>A goal over time: the chart and its numbers, what they ask the team, the criterion, breaks, and the goal itself.</summary>
public sealed class GoalModel(CurrentCaller caller, ReadGoalCourse read) : PageModel
{
    /// <summary>Any value: only points with the learner quiet or active alert.</summary>
    [BindProperty(SupportsGet = true)]
    public string? State { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Position { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Side { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Place { get; set; }

    public GoalCourseView Course { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } goal)
            return NotFound();
        Course = new(goal, new ConditionFilter(!string.IsNullOrEmpty(State), Asked(Position), Asked(Side), Asked(Place)));
        return Page();
    }

    private static string? Asked(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
