using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The agency's school calendar, and the ways to change it.</summary>
public sealed class SchoolModel(CurrentCaller caller, ReadCalendar read) : PageModel
{
    public CalendarPage Calendar { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken stop) => Calendar = await read.RunAsync(caller.Scope, stop);
}
