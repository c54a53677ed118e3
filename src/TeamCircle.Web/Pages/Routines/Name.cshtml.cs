using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>Gives a routine another name.</summary>
public sealed class NameModel(CurrentCaller caller, ReadRoutine read, RenameRoutine rename) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public RenameRoutine.Input Input { get; set; } = new();

    public RoutinePage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Name = Shown.Name, Version = Shown.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        var outcome = await rename.RunAsync(caller.Value, Operation, Input with { Routine = id }, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input = Input with { Version = Shown.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "The name is saved.";
        return Redirect($"/routines/{id}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, null, stop))!;
        return Shown is { MayWrite: true };
    }
}
