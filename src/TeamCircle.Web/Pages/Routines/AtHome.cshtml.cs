using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>What was practised at home: written down by the team as it was told, and taken back.</summary>
public sealed class AtHomeModel(CurrentCaller caller, ReadHomeLogs read, LogAtHome log, TakeBackHomeLog takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public LogAtHome.Input Input { get; set; } = new();

    [BindProperty]
    public TakeBackHomeLog.Input Back { get; set; } = new();

    public int Id { get; private set; }

    public HomeLogsPage Shown { get; private set; } = null!;

    /// <summary>The entry whose taking back was refused.</summary>
    public int? TakingBack { get; private set; }

    public IEnumerable<SelectListItem> Routines => Shown.Routines.Select(r => new SelectListItem(r.Name, $"{r.Id}"));

    public async Task<IActionResult> OnGetAsync(int id, int? routine, CancellationToken stop)
    {
        Input = new() { OnDay = caller.Value.Today, Routine = routine ?? 0 };
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await log.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        if (outcome?.Value is not { } saved)
            return await AgainAsync(id, outcome?.Problems ?? [], nameof(Input), stop);
        return Done(id, $"Written down for {Say.Weekday(saved.OnDay)}.");
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, CancellationToken stop)
    {
        TakingBack = Back.Log;
        var outcome = ModelState.IsValid ? await takeBack.RunAsync(caller.Value, Operation, Back with { Learner = id }, stop) : null;
        return outcome?.Value is null ? await AgainAsync(id, outcome?.Problems ?? [], nameof(Back), stop) : Done(id, "Taken back.");
    }

    private RedirectResult Done(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/learners/{id}/at-home");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, string prefix, CancellationToken stop) =>
        await LoadAsync(id, stop) ? this.Refuse(problems, prefix) : NotFound();

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Id = id;
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is not null;
    }
}
