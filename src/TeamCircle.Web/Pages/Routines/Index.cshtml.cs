using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>A learner's routines: where each is practised, whether it was, and a form for another.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadRoutines read, ReadCoverage coverage, AddRoutine add) : PageModel
{
    private const int Weeks = 4;

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddRoutine.Input Input { get; set; } = new();

    /// <summary>Whether the coverage looks back over four weeks, a column each; else this week, a column a day.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Back { get; set; }

    public RoutinesPage Shown { get; private set; } = null!;

    public Coverage Coverage { get; private set; } = null!;

    /// <summary>The columns of the coverage: what each is called and the days it holds.</summary>
    public IReadOnlyList<(string Words, IReadOnlyList<LocalDate> Days)> Columns { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop);
        if (outcome.Value is not { } saved)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = "The routine is added. Say where it is practised.";
        return Redirect($"/learners/{id}/routines/{saved.Routine}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } shown)
            return false;
        Shown = shown;
        Coverage = await coverage.RunAsync(caller.Scope, id, caller.Value.Today, Back ? Weeks : 1, stop);
        Columns = Back
            ? [.. Coverage.Weeks.Select(w => ($"Week of {Say.Day(w.First)}", w.Days))]
            : [.. Coverage.Weeks.SelectMany(w => w.Days).Select(d => (Say.ShortDay(d), (IReadOnlyList<LocalDate>)[d]))];
        return true;
    }
}
