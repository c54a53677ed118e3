using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Calls a visit of today off; the make-up is asked for at once.</summary>
public sealed class CallOffModel(CurrentCaller caller, ReadPlannedVisit read, CallOff callOff) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public CallOff.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        Input = new() { Version = planned.Visit.Version };
        return IsForToday ? Page() : Redirect($"/visits/{id}");
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        var outcome = ModelState.IsValid ? await callOff.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop) : null;
        if (outcome?.Value is { } saved)
            return AskForMakeUp(saved);
        Input = Input with { Version = planned.Visit.Version };
        return this.Refuse(outcome?.Problems ?? []);
    }

    private bool IsForToday => Planned.Visit is { State: VisitState.Planned, Discipline: not null } visit && visit.OnDay == caller.Value.Today
        && RecordRules.MayRecord(caller.Value, visit.LearnerId, visit.Provider.Id);

    private RedirectResult AskForMakeUp(CallOff.CalledOff saved)
    {
        if (!CalendarRules.MayPlan(caller.Value, saved.Learner, Planned.Visit.Provider.Id))
        {
            TempData["Done"] = "Called off: it is on record as not offered.";
            return Redirect("/");
        }
        TempData["Done"] = "Called off: it is on record as not offered. When can it be made up? If nobody knows yet, leave it: nothing is decided.";
        return Redirect($"/visits/new?service={saved.Service}&pays={NodaTime.Text.LocalDatePattern.Iso.Format(saved.OnDay)}");
    }
}
