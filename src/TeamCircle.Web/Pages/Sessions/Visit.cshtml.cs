using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>One visit: what was planned, what was logged, its corrections and who made them.</summary>
public sealed class VisitModel(CurrentCaller caller, ReadVisit read, ReadPlannedVisit planned, TakeBackSession takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackSession.Input Input { get; set; } = new();

    public VisitPage Visit { get; private set; } = null!;

    public PlannedVisitPage Planned { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public bool SeesMinutes => caller.Value.IsMember(Visit.Service.LearnerId);

    public int Me => caller.Value.PersonId;

    public IEnumerable<SessionOnRecord> Earlier => Visit.Sessions.Where(s => !s.Live);

    public string NotLogged => Visit.State == VisitState.CalledOff ? "This visit was called off."
        : Visit.Service.Id is null ? "It is for no service, so no minutes are logged for it." : "Nothing is logged for this visit.";

    public Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop) => ShowAsync(id, stop);

    public async Task<IActionResult> OnPostTakeBackAsync(Guid id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await takeBack.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } taken)
        {
            TempData["Done"] = taken.IsPlannedAgain ? "Taken back. The visit is planned again." : "Taken back.";
            return Redirect($"/visits/{id}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Input));
        return await ShowAsync(id, stop);
    }

    private async Task<IActionResult> ShowAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } visit)
            return NotFound();
        (Visit, Planned) = (visit, (await planned.RunAsync(caller.Scope, caller.Value, id, stop))!);
        return Page();
    }
}
