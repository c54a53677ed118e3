using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Things;
using TeamCircle.Data.Things;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Things;

/// <summary>Writes down a thing that the plan promises, or changes what was written.</summary>
public sealed class PromiseModel(CurrentCaller caller, ReadThings read, PromiseThing promise) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public PromiseThing.Input Input { get; set; } = new();

    public ThingChoices Shown { get; private set; } = null!;

    public IEnumerable<SelectListItem> Kinds { get; } = [.. Enum.GetValues<ThingKind>().Select(k => new SelectListItem(Say.Begin(ThingWords.Of(k)), $"{k}"))];

    public IEnumerable<SelectListItem> Team => PlanChoices.People(Shown.Team);

    /// <param name="thing">The one to change; null for a new one.</param>
    public async Task<IActionResult> OnGetAsync(int id, int? thing, CancellationToken stop)
    {
        if (!await LoadAsync(id, thing, stop))
            return NotFound();
        Input = Shown.Stands ?? new() { PromisedOn = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await promise.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop);
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = "Saved.";
            return Redirect($"/learners/{id}/things/{saved.Thing}");
        }
        if (!await LoadAsync(id, Input.Thing, stop))
            return NotFound();
        if (outcome.Problems.AreOvertaken())
            Input = Input with { Version = Shown.Stands!.Version };
        return this.Refuse(outcome.Problems);
    }

    private async Task<bool> LoadAsync(int id, int? thing, CancellationToken stop)
    {
        Shown = (await read.ChoicesAsync(caller.Value, caller.Scope, id, thing, stop))!;
        return Shown is not null;
    }
}
