using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>A learner's counts, period by period.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadOpenCounts read) : PageModel
{
    public CountList Counts { get; private set; } = null!;

    public bool EntersPeriods => caller.Value.Is(Role.Administrator);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.OfLearnerAsync(caller.Value, caller.Scope, id, stop) is not { } counts)
            return NotFound();
        Counts = counts;
        return Page();
    }

    public string State(CountListed period) => period switch
    {
        { ClosedOn: { } day } => $"Closed on {Say.Date(day)}{(period.Edition > 1 ? $", edition {Say.Number(period.Edition)}" : "")}",
        { Edition: > 0 } => "Open again",
        { IsOver: true } => "Not closed yet",
        _ => $"Runs until {Say.Date(period.To)}",
    };
}
