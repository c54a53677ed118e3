using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The planned visits on a closed day: how many there are, and cancelling them all in one act that can be taken back.</summary>
public sealed class ClosureVisitsModel(CurrentCaller caller, ReadClosureVisits read, CancelClosedVisits cancel, BringBackClosedVisits bringBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public CancelClosedVisits.Input Input { get; set; } = new();

    public ClosureVisitsPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int closure, CancellationToken stop) => await LoadAsync(closure, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int closure, CancellationToken stop)
    {
        var outcome = await cancel.RunAsync(caller.Value, Operation, Input with { Closure = closure }, stop);
        return await AnswerAsync(closure, outcome.Value is { } saved ? $"{Say.Count(saved.Visits, "visit")} cancelled: school closed." : null, outcome.Problems, stop);
    }

    public async Task<IActionResult> OnPostBackAsync(int closure, CancellationToken stop)
    {
        var outcome = await bringBack.RunAsync(caller.Value, Operation, new() { Closure = closure, Version = Input.Version }, stop);
        return await AnswerAsync(closure, outcome.Value is { } saved ? $"Taken back.{CameBack(saved.Back, saved.Lost)}" : null, outcome.Problems, stop);
    }

    /// <summary>3 planned visits stand on it; 4 visits cancelled for it.</summary>
    internal static string Words(ClosureCounts counts) => string.Join("; ", new[]
    {
        counts.Standing > 0 ? $"{Stand(counts.Standing)} on it" : null,
        counts.Cancelled > 0 ? $"{Say.Count(counts.Cancelled, "visit")} cancelled for it" : null,
    }.OfType<string>());

    /// <summary>1 planned visit stands; 3 planned visits stand.</summary>
    internal static string Stand(int visits) => $"{Say.Count(visits, "planned visit")} {(visits == 1 ? "stands" : "stand")}";

    /// <summary>What became of visits that were cancelled for a closure, to follow a sentence; empty where there were none.</summary>
    internal static string CameBack(int back, int lost) =>
        (back > 0 ? $" {Say.Count(back, "visit")} {(back == 1 ? "is" : "are")} planned again." : "")
        + (lost > 0 ? $" {Say.Count(lost, "visit")} could not come back: the time was given to somebody else." : "");

    private async Task<IActionResult> AnswerAsync(int closure, string? done, IReadOnlyList<Core.Problem> problems, CancellationToken stop)
    {
        if (done is null)
            return await LoadAsync(closure, stop) ? this.Refuse(problems) : NotFound();
        TempData["Done"] = done;
        return Redirect($"/settings/calendar/closures/{closure}/visits");
    }

    private async Task<bool> LoadAsync(int closure, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Scope, caller.Value, closure, stop))!;
        return Shown is not null;
    }
}
