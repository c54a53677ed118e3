using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>Somebody else comes: names a substitute for a visit, or for all of the same person's visits up to a day.</summary>
public sealed class SomebodyElseModel(CurrentCaller caller, ReadPlannedVisit read, ReadStaff staff, SendSubstitute send) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SendSubstitute.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    /// <summary>Who gives services in the agency and does not work with the learner.</summary>
    public IReadOnlyList<SelectListItem> People { get; private set; } = [];

    public bool AsksToConfirm => Input.Confirmed || (ModelState.TryGetValue("Input.Confirmed", out var entry) && entry.Errors.Count > 0);

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!Planned.MayChange)
            return Redirect($"/visits/{id}");
        Input = new() { Version = Planned.Visit.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        var outcome = await send.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop);
        if (outcome.Value is not { } saved)
        {
            Input = Input with { Version = Planned.Visit.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = $"{saved.Person} comes on {Say.List([.. saved.Days.Select(Say.Day)])}, and finds {Planned.Visit.Learner} under Today on those days only.";
        return Redirect($"/visits/{id}");
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken stop)
    {
        Planned = (await read.RunAsync(caller.Scope, caller.Value, id, stop))!;
        if (Planned is null)
            return false;
        var team = Planned.Team.Select(t => t.Id).ToHashSet();
        People = PlanChoices.People([.. (await staff.RunAsync(caller.Scope, caller.Value.Today, stop)).Where(p => !team.Contains(p.Id))]);
        return true;
    }
}
