using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The agency's school calendar, and the ways to change it.</summary>
public sealed class SchoolModel(CurrentCaller caller, ReadCalendar read, ReadClosureVisits visits) : PageModel
{
    public CalendarPage Calendar { get; private set; } = null!;

    /// <summary>How many visits closures touch, by the closure's number; those that touch none are missing.</summary>
    public IReadOnlyDictionary<int, ClosureCounts> Visits { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken stop) =>
        (Calendar, Visits) = (await read.RunAsync(caller.Scope, stop), await visits.AllAsync(caller.Scope, caller.Value, stop));
}
