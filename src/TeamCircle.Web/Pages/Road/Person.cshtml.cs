using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Road;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Road;

/// <summary>Somebody's month on the road, for whoever pays it back: places and learners by their codes.</summary>
public sealed class PersonModel(CurrentCaller caller, ReadRoad read) : PageModel
{
    public RoadMonth Shown { get; private set; } = null!;

    /// <param name="id">The person.</param>
    /// <param name="month">As in 2026-10; this month where it is left out or can't be read.</param>
    public async Task<IActionResult> OnGetAsync(int id, string? month, CancellationToken stop) => await LoadAsync(id, month, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnGetCsvAsync(int id, string? month, CancellationToken stop) => await LoadAsync(id, month, stop) ? new RoadFile(Shown, SheetKind.Csv) : NotFound();

    private async Task<bool> LoadAsync(int id, string? month, CancellationToken stop)
    {
        Shown = (await read.MonthAsync(caller.Scope, id, RoadFile.MonthOf(month, caller.Value.Today), stop))!;
        return Shown is not null;
    }
}
