using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Takes back the last change of a visit.</summary>
public sealed class UndoModel(CurrentCaller caller, ReadPlannedVisit read, UndoChange undo) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public UndoChange.Input Input { get; set; } = new();

    public PlannedVisitPage Planned { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        if (planned.Undo is not { } last)
            return Redirect($"/visits/{id}");
        Planned = planned;
        Input = new() { Act = last.Act };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        var outcome = ModelState.IsValid ? await undo.RunAsync(caller.Value, Operation, Input with { Visit = id }, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = "Taken back.";
            return Redirect(saved.IsGone ? $"/learners/{planned.Visit.LearnerId}" : $"/visits/{id}");
        }
        if (planned.Undo is null)
            return Redirect($"/visits/{id}");
        Planned = planned;
        return this.Refuse(outcome?.Problems ?? []);
    }
}
