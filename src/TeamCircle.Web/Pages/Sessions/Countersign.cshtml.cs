using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Reads what an assistant logged, and countersigns it or sends it back with a word.</summary>
public sealed class CountersignModel(CurrentCaller caller, ReadVisit read, ReadCountersign waiting, Countersign sign) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SendBack.Input Input { get; set; } = new();

    public EntryToSign Entry { get; private set; } = null!;

    public SessionOnRecord Logged { get; private set; } = null!;

    public Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop) => ShowAsync(id, [], stop);

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        var outcome = await sign.RunAsync(caller.Value, Operation, new(id), stop);
        if (outcome.Value is not { } saved)
            return outcome.Problems.Contains(Problem.NotFound) ? NotFound() : await ShowAsync(id, outcome.Problems, stop);
        TempData["Done"] = $"Countersigned. {Say.Minutes(saved.Credited)} count.";
        return Redirect("/countersign");
    }

    public async Task<IActionResult> OnPostBackAsync(Guid id, [FromServices] SendBack sendBack, CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return await ShowAsync(id, [], stop);
        var outcome = await sendBack.RunAsync(caller.Value, Operation, Input with { Session = id }, stop);
        if (outcome.Value is null)
            return outcome.Problems.Contains(Problem.NotFound) ? NotFound() : await ShowAsync(id, outcome.Problems, stop);
        TempData["Done"] = "Sent back. It waits for you again once it is corrected.";
        return Redirect("/countersign");
    }

    /// <summary>What waits no more, or is not for the reader to sign, is read on the visit's own page.</summary>
    private async Task<IActionResult> ShowAsync(Guid id, IReadOnlyList<Problem> problems, CancellationToken stop)
    {
        if (await read.OfSessionAsync(caller.Scope, caller.Value, id, stop) is not { } visit)
            return NotFound();
        if (await waiting.FindAsync(caller.Value, caller.Scope, id, stop) is not { } entry || visit.Standing is not { } logged)
            return Redirect($"/visits/{visit.Id}");
        (Entry, Logged) = (entry, logged);
        ModelState.AddProblems(problems, nameof(Input));
        return Page();
    }
}
