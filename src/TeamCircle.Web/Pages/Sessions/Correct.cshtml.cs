using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Corrects what was logged, with a reason. Who loses a race sees both, and saving again is then a choice.</summary>
public sealed class CorrectModel(CurrentCaller caller, ReadVisit read, CorrectSession correct) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public CorrectSession.Input Input { get; set; } = new();

    public VisitPage Visit { get; private set; } = null!;

    public bool IsOvertaken { get; private set; }

    public LocalDate Today => caller.Value.Today;

    /// <summary>Where the form goes: what was taken back meanwhile can only be logged anew.</summary>
    public string? Action => Visit.Standing is not null ? null : Visit.Planned is null ? "/visits/new/log" : $"/visits/{Visit.Id}/log";

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { MayRecord: true } visit)
            return NotFound();
        if (visit.Standing is not { } standing)
            return Redirect($"/visits/{id}");
        if (visit.InClosedCount)
            return Redirect(visit.MayNameOthers ? $"/visits/{id}/restate" : $"/visits/{id}");
        (Visit, Input) = (visit, SessionForm.Begin(standing, visit.AwardId));
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await correct.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/visits/{id}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true
            || await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { MayRecord: true } visit)
            return NotFound();
        Visit = visit;
        IsOvertaken = outcome?.Problems.Any(p => p.Field == Problem.VersionField) == true;
        ModelState.AddProblems([.. (outcome?.Problems ?? []).Where(p => p.Field != Problem.VersionField)], nameof(Input));
        var page = Page();
        page.StatusCode = IsOvertaken ? StatusCodes.Status409Conflict : null;
        return page;
    }
}
