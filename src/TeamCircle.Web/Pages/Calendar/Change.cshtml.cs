using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Changes one visit; its series stays.</summary>
public sealed class ChangeModel(CurrentCaller caller, ReadPlannedVisit read, ChangeVisit change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangeVisit.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    public bool Asks => ModelState.TryGetValue("Input.Confirmed", out var entry) && entry.Errors.Count > 0;

    /// <param name="day">Where the calendar leads here with another day and time; null: as it stands.</param>
    public async Task<IActionResult> OnGetAsync(Guid id, LocalDate? day, LocalTime? start, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        if (!planned.MayChange)
            return Redirect($"/visits/{id}");
        Planned = planned;
        var visit = planned.Visit;
        Input = new() { Version = visit.Version, OnDay = day ?? visit.OnDay, Start = start ?? visit.Start, Minutes = visit.Minutes, Place = visit.Place, PlaceId = visit.PlaceId };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        if (!ModelState.IsValid)
            return Page();
        var outcome = await change.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop);
        if (outcome.Value is null)
        {
            Input = Input with { Version = planned.Visit.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "Changed.";
        return Redirect($"/visits/{id}");
    }
}
