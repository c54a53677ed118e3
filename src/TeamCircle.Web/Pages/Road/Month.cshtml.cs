using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Road;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Road;

/// <summary>One's own month on the road: a sheet to print and to save.</summary>
public sealed class MonthModel(CurrentCaller caller, ReadRoad read) : PageModel
{
    public RoadMonth Shown { get; private set; } = null!;

    /// <param name="month">As in 2026-10; this month where it is left out or can't be read.</param>
    public async Task<IActionResult> OnGetAsync(string? month, CancellationToken stop) => await LoadAsync(month, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnGetCsvAsync(string? month, CancellationToken stop) => await LoadAsync(month, stop) ? new RoadFile(Shown, SheetKind.Csv) : NotFound();

    private async Task<bool> LoadAsync(string? month, CancellationToken stop)
    {
        Shown = (await read.MonthAsync(caller.Scope, caller.Value.PersonId, RoadFile.MonthOf(month, caller.Value.Today), stop))!;
        return Shown is not null;
    }
}
