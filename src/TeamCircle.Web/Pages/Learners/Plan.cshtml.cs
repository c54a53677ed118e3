using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>A learner's plans as written, beside our reading of them.</summary>
public sealed class PlanModel(CurrentCaller caller, ReadPlan read, ReadAcknowledged acknowledged) : PageModel
{
    public PlanPage Shown { get; private set; } = null!;

    /// <summary>Who has read the plan in force.</summary>
    public AcknowledgedPage Acknowledged { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public bool Manages => caller.Value.Manages(Shown.Learner.Id);

    /// <summary>Whether the caller owns a goal today, and so writes how it is measured.</summary>
    public bool MayMeasure(GoalInPlan goal) => goal.OwnedBy(caller.Value.PersonId, Today);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Scope, id, stop))!;
        Acknowledged = (await acknowledged.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is null ? NotFound() : Page();
    }
}
