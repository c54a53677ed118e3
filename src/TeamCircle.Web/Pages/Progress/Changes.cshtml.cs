using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>What changed about a goal: noted by its owners or the case manager, and taken back.</summary>
public sealed class ChangesModel(CurrentCaller caller, ReadGoalChanges read, NoteTeachingChange note, TakeBackTeachingChange takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public NoteTeachingChange.Input Input { get; set; } = new();

    [BindProperty]
    public TakeBackTeachingChange.Input Back { get; set; } = new();

    public GoalChangesPage Shown { get; private set; } = null!;

    /// <summary>The change whose taking back was refused.</summary>
    public int? TakingBack { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Input = new() { OnDay = caller.Value.Today };
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await note.RunAsync(caller.Value, Operation, Input with { Goal = id }, stop) : null;
        return outcome?.Value is { } saved
            ? Done(id, $"Noted from {Say.Weekday(saved.OnDay)} on.")
            : await AgainAsync(id, outcome?.Problems ?? [], nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, CancellationToken stop)
    {
        TakingBack = Back.Change;
        var outcome = ModelState.IsValid ? await takeBack.RunAsync(caller.Value, Operation, Back with { Goal = id }, stop) : null;
        return outcome?.Value is null ? await AgainAsync(id, outcome?.Problems ?? [], nameof(Back), stop) : Done(id, "Taken back.");
    }

    private RedirectResult Done(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/goals/{id}/changes");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, string prefix, CancellationToken stop) =>
        !problems.Contains(Problem.NotFound) && await LoadAsync(id, stop) ? this.Refuse(problems, prefix) : NotFound();

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is not null;
    }
}
