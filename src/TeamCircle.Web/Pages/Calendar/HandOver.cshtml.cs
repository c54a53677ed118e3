using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Hands a visit, or it and all that follow, to a colleague.</summary>
public sealed class HandOverModel(CurrentCaller caller, ReadPlannedVisit read, HandOver handOver) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public HandOver.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    public IReadOnlyList<SelectListItem> Colleagues => Choices.People(Planned.Team.Where(t => t.Id != Planned.Visit.Provider.Id), "Choose");

    public bool Asks(string field) => ModelState.TryGetValue($"Input.{field}", out var entry) && entry.Errors.Count > 0;

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
        var outcome = await handOver.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop);
        if (outcome.Value is not { } saved)
        {
            Input = Input with { Version = planned.Visit.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = saved.Series is { } series ? $"Handed over to {saved.To}. {SeriesWords.Saved(series)}" : $"Handed over to {saved.To}.";
        return Redirect($"/visits/{saved.Visit}");
    }
}
