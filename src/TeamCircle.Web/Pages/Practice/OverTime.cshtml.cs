using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>Time in position, skin and tolerance, and the switch, over time and across all adults.</summary>
public sealed class OverTimeModel(CurrentCaller caller, ReadOverTime read) : PageModel
{
    /// <summary>The numbers of days that can be looked back, the first unless another is chosen.</summary>
    public static readonly IReadOnlyList<int> Spans = [90, 30, 365];

    /// <summary>How many days back, today among them.</summary>
    [BindProperty(SupportsGet = true)]
    public int Days { get; set; }

    public OverTimePage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Days = Spans.Contains(Days) ? Days : Spans[0];
        if (await read.RunAsync(caller.Scope, id, caller.Value.Today.PlusDays(1 - Days), stop) is not { } shown)
            return NotFound();
        Shown = shown;
        return Page();
    }
}
