using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>Ends a routine, or takes its end back.</summary>
public sealed class EndModel(CurrentCaller caller, ReadRoutine read, EndRoutine end, ResumeRoutine resume) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndRoutine.Input Input { get; set; } = new();

    public RoutinePage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Version = Shown.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        var outcome = ModelState.IsValid ? await end.RunAsync(caller.Value, Operation, Input with { Routine = id }, stop) : null;
        return outcome?.Value is not null ? Saved(id, "The routine has ended.") : Again(outcome?.Problems ?? []);
    }

    public async Task<IActionResult> OnPostResumeAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        var outcome = await resume.RunAsync(caller.Value, Operation, new() { Routine = id, Version = Input.Version }, stop);
        return outcome.Value is not null ? Saved(id, "The routine goes on.") : Again(outcome.Problems);
    }

    private RedirectResult Saved(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/routines/{id}");
    }

    private IActionResult Again(IReadOnlyList<Problem> problems)
    {
        if (problems.AreOvertaken())
            Input = Input with { Version = Shown.Version };
        return this.Refuse(problems);
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, null, stop))!;
        return Shown is { MayWrite: true };
    }
}
