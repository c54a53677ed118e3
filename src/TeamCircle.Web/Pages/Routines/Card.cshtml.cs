using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>A routine's card, as it is printed; licensed members of the team review it here.</summary>
public sealed class CardModel(CurrentCaller caller, ReadRoutine read, ReviewRoutine review, TakeBackReview takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ReviewRoutine.Input Input { get; set; } = new();

    [BindProperty]
    public TakeBackReview.Input Back { get; set; } = new();

    public RoutinePage Shown { get; private set; } = null!;

    /// <param name="version">The number of an older one; null: the newest.</param>
    public async Task<IActionResult> OnGetAsync(int id, int? version, CancellationToken stop) => await LoadAsync(id, version, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostReviewAsync(int id, CancellationToken stop)
    {
        var outcome = await review.RunAsync(caller.Value, Operation, Input with { Routine = id }, stop);
        return outcome.Value is not null ? Saved(id, "Your review is kept.") : await AgainAsync(id, outcome.Problems, nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, CancellationToken stop)
    {
        var outcome = await takeBack.RunAsync(caller.Value, Operation, Back with { Routine = id }, stop);
        return outcome.Value is not null ? Saved(id, "Your review is taken back.") : await AgainAsync(id, outcome.Problems, nameof(Back), stop);
    }

    public async Task<IActionResult> OnPostSeenAsync(
        int id, [FromServices] SeeCautions see, [Bind(Prefix = "Seen")] SeeCautions.Input seen, CancellationToken stop)
    {
        var outcome = await see.RunAsync(caller.Value, Operation, seen with { Routine = id }, stop);
        return outcome.Value is not null ? Saved(id, "Kept. The cautions stand in full again when they change.") : NotFound();
    }

    private RedirectResult Saved(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/routines/{id}");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, string prefix, CancellationToken stop) =>
        await LoadAsync(id, null, stop) ? this.Refuse(problems, prefix) : NotFound();

    private async Task<bool> LoadAsync(int id, int? version, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, version, stop))!;
        return Shown is not null;
    }
}
