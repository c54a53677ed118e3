using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>A learner's file as an outside reviewer reads it: the plan in force on a day, with what was given beside it up to that day.</summary>
public sealed class FileModel(CurrentCaller caller, ReadPlan plans, ReadStandingLines lines, ReadReviewFiles read) : PageModel
{
    /// <summary>The day; null: today.</summary>
    [BindProperty(SupportsGet = true)]
    public LocalDate? On { get; set; }

    public LocalDate Day => On ?? caller.Value.Today;

    public bool IsReviewer => caller.Value.Is(Role.Reviewer) && !caller.Value.IsStaff;

    public PlanPage Plan { get; private set; } = null!;

    public Standings Standings { get; private set; } = null!;

    public ReviewFile Reviewed { get; private set; } = null!;

    /// <summary>The plan in force on the day; null where none was.</summary>
    public PlanView? InForce => Plan.Plans.FirstOrDefault(p => p.StartDay <= Day && Day <= p.EndDay);

    public IEnumerable<ServiceInPlan> Services => Plan.Plans.SelectMany(p => p.Services).Where(s => s.FromDay <= Day && Day <= s.ToDay);

    public IEnumerable<GoalInPlan> Goals => Plan.Plans.SelectMany(p => p.Goals).Where(g => g.FromDay <= Day && Day <= g.ToDay);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await plans.RunAsync(caller.Scope, id, stop) is not { } plan)
            return NotFound();
        Plan = plan;
        Standings = await lines.RunAsync(caller.Scope, Day, id, stop);
        var first = Standings.Period is { } period && period.StartDay <= Day ? period.StartDay : Day.PlusDays(-28);
        Reviewed = (await read.OfAsync(caller.Scope, id, new DateInterval(first, Day), stop))!;
        return Reviewed is null ? NotFound() : Page();
    }
}
