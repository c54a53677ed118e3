using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>What was practised at home: written down by the team as it was told, and taken back.</summary>
public sealed class AtHomeModel(CurrentCaller caller, ReadHomeLogs read, HomeTurns turns) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public LogAtHome.Input Input { get; set; } = new();

    [BindProperty]
    public TakeBackHomeLog.Input Back { get; set; } = new();

    [BindProperty]
    public LetTapAtHome.Input Letting { get; set; } = new();

    public int Id { get; private set; }

    public HomeLogsPage Shown { get; private set; } = null!;

    /// <summary>The entry whose taking back was refused.</summary>
    public int? TakingBack { get; private set; }

    public IEnumerable<SelectListItem> Routines => Shown.Routines.Select(r => new SelectListItem(r.Name, $"{r.Id}"));

    public IEnumerable<SelectListItem> Answers { get; } = [.. Enum.GetValues<HomeAnswer>().Select(a => new SelectListItem(Say.Begin(RoutineWords.Of(a)), $"{a}"))];

    public async Task<IActionResult> OnGetAsync(int id, int? routine, CancellationToken stop)
    {
        Input = new() { OnDay = caller.Value.Today, Routine = routine ?? 0 };
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await turns.Log.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        if (outcome?.Value is not { } saved)
            return await AgainAsync(id, outcome?.Problems ?? [], nameof(Input), stop);
        return Done(id, $"Written down for {Say.Weekday(saved.OnDay)}.");
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, CancellationToken stop)
    {
        TakingBack = Back.Log;
        var outcome = ModelState.IsValid ? await turns.TakeBack.RunAsync(caller.Value, Operation, Back with { Learner = id }, stop) : null;
        return outcome?.Value is null ? await AgainAsync(id, outcome?.Problems ?? [], nameof(Back), stop) : Done(id, "Taken back.");
    }

    public async Task<IActionResult> OnPostLetAsync(int id, CancellationToken stop)
    {
        var outcome = await turns.Let.RunAsync(caller.Value, Operation, Letting with { Learner = id }, stop);
        return outcome.Value is not { } saved ? NotFound() : Done(id, saved.Let ? "They may tap from now on." : "They tap no more.");
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
