using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Says that a visit of today begins later.</summary>
public sealed class RunningLateModel(CurrentCaller caller, ReadPlannedVisit read, RunningLate late) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public RunningLate.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        Input = new() { Version = planned.Visit.Version, Minutes = 10 };
        var visit = planned.Visit;
        var isOwnOfToday = visit.State == VisitState.Planned && visit.Discipline is not null && visit.OnDay == caller.Value.Today
            && RecordRules.MayRecord(caller.Value, visit.LearnerId, visit.Provider.Id);
        return isOwnOfToday ? Page() : Redirect($"/visits/{id}");
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        var outcome = ModelState.IsValid ? await late.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop) : null;
        if (outcome?.Value is not { } saved)
        {
            Input = Input with { Version = planned.Visit.Version };
            return this.Refuse(outcome?.Problems ?? []);
        }
        TempData["Done"] = saved.Expected is { } expected ? $"Expected about {Say.Time(expected)}. The family's page says so." : "On time after all.";
        return Redirect("/");
    }
}
