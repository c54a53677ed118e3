using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>Says at which visits and on which days at home a routine is practised.</summary>
public sealed class PlanModel(CurrentCaller caller, ReadRoutines read, PlanAtVisits atVisits, PlanAtHome atHome) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public PlanAtVisits.Input Visits { get; set; } = new();

    [BindProperty]
    public PlanAtHome.Input Home { get; set; } = new();

    public RoutinesPage Shown { get; private set; } = null!;

    public RoutineShown Routine { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int routine, CancellationToken stop)
    {
        if (!await LoadAsync(id, routine, stop))
            return NotFound();
        Visits = new() { Ticked = [.. Routine.Slots] };
        Home = new() { Weekdays = [.. Routine.Home.Select(h => h.Weekday).OfType<IsoDayOfWeek>()], Who = Routine.Home.Select(h => h.Who).FirstOrDefault() };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int routine, CancellationToken stop)
    {
        var outcome = await atVisits.RunAsync(caller.Value, Operation, Visits with { Learner = id, Routine = routine }, stop);
        return outcome.Value is not null ? Saved(id, "Where it is practised is saved.") : await AgainAsync(id, routine, outcome.Problems, stop);
    }

    public async Task<IActionResult> OnPostHomeAsync(int id, int routine, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await atHome.RunAsync(caller.Value, Operation, Home with { Learner = id, Routine = routine }, stop) : null;
        return outcome?.Value is not null ? Saved(id, "What is practised at home is saved.") : await AgainAsync(id, routine, outcome?.Problems ?? [], stop);
    }

    private RedirectResult Saved(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/learners/{id}/routines");
    }

    private async Task<IActionResult> AgainAsync(int id, int routine, IReadOnlyList<Problem> problems, CancellationToken stop)
    {
        if (problems.Contains(Problem.NotFound) || !await LoadAsync(id, routine, stop))
            return NotFound();
        ModelState.AddProblems(problems, nameof(Home));
        return Page();
    }

    private async Task<bool> LoadAsync(int id, int routine, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { MayWrite: true } shown || shown.Routines.SingleOrDefault(r => r.Id == routine) is not { } found)
            return false;
        (Shown, Routine) = (shown, found);
        return true;
    }
}
