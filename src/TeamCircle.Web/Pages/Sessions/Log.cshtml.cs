using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Pages.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Logs a scheduled visit. What may be logged is decided in Core; this page only asks and shows.</summary>
public sealed class LogModel(CurrentCaller caller, ReadVisit read, ReadLedger ledger, LogSession log) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public LogSession.Input Input { get; set; } = new();

    /// <summary>Other visits of the same group session for which the same holds.</summary>
    [BindProperty]
    public Guid[] Also { get; set; } = [];

    public VisitPage Visit { get; private set; } = null!;

    /// <summary>What the visit's service lacks so far, in words; null where nothing does.</summary>
    public string? Lacking { get; private set; }

    public LocalDate Today => caller.Value.Today;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { MayRecord: true } visit)
            return NotFound();
        if (visit.Standing is not null || visit.Planned is null)
            return Redirect($"/visits/{id}");
        if (visit.MustReadFirst)
            return Redirect($"/learners/{visit.Service.LearnerId}/read-first");
        await ShowAsync(visit, stop);
        Also = [.. visit.Group.Select(m => m.Visit)];
        Input = SessionForm.Begin(visit, visit.Planned.Value.Start);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid
            ? await log.RunAsync(caller.Value, Operation, Input with { Visits = [id, .. Also] }, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/visits/{id}");
        }
        return outcome?.Problems.Contains(Problem.NotFound) == true ? NotFound() : await AgainAsync(id, outcome?.Problems ?? [], stop);
    }

    private async Task ShowAsync(VisitPage visit, CancellationToken stop)
    {
        Visit = visit;
        if (visit.Service.Id is { } service && !caller.Value.StandsIn(visit.Service.LearnerId))
            Lacking = LedgerView.Lacking(await ledger.ServiceAsync(caller.Scope, service, null, Today, stop));
    }

    /// <summary>What was typed, beside what stands now where somebody else was first: saving again is then a choice.</summary>
    private async Task<IActionResult> AgainAsync(Guid id, IReadOnlyList<Problem> problems, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { MayRecord: true } visit)
            return NotFound();
        await ShowAsync(visit, stop);
        ModelState.AddProblems(problems, nameof(Input));
        ModelState.Remove($"{nameof(Input)}.{nameof(Input.Version)}");
        Input = Input with { Version = visit.Version };
        var page = Page();
        if (problems.Any(p => p.Field == Problem.VersionField))
            page.StatusCode = StatusCodes.Status409Conflict;
        return page;
    }
}
