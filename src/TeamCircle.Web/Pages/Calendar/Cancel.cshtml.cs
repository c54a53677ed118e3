using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Cancels a visit with its reason, or ends its series with it.</summary>
public sealed class CancelModel(CurrentCaller caller, ReadPlannedVisit read, CancelVisit cancel, EndSeries end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public CancelVisit.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        if (!planned.MayChange)
            return Redirect($"/visits/{id}");
        Planned = planned;
        Input = new() { Version = planned.Visit.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        if (!ModelState.IsValid)
            return Page();
        var outcome = await cancel.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop);
        if (outcome.Value is null)
        {
            Input = Input with { Version = planned.Visit.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "Cancelled. Nothing is decided about its minutes.";
        TempData["WayBack"] = $"/visits/{id}/undo";
        return Redirect($"/visits/{id}");
    }

    /// <summary>This visit and all that follow are not to be.</summary>
    public async Task<IActionResult> OnPostEndAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        ModelState.Clear();
        var outcome = await end.RunAsync(caller.Value, Operation, new() { Visit = id, Version = Input.Version }, stop);
        if (outcome.Value is not { } ended)
        {
            Input = Input with { Version = planned.Visit.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = $"The series ends on {Say.Date(ended.LastDay)}. {SeriesWords.Kept(ended.Kept)}".TrimEnd();
        TempData["WayBack"] = $"/visits/{id}/undo"; // the visit itself is in no calendar any more
        return Redirect($"/learners/{planned.Visit.LearnerId}");
    }
}
