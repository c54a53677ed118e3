using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>What to set out for a learner on a day, in order.</summary>
public sealed class DayModel(CurrentCaller caller, ReadDayStrip read) : PageModel
{
    /// <summary>Null, or what can't be read as a day: today.</summary>
    [BindProperty(SupportsGet = true)]
    public LocalDate? Day { get; set; }

    public DayStrip Strip { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, Day ?? caller.Value.Today, stop) is not { } strip)
            return NotFound();
        Strip = strip;
        return Page();
    }

    public string Address(int days) => $"/learners/{Strip.LearnerId}/day?day={NodaTime.Text.LocalDatePattern.Iso.Format(Strip.Day.PlusDays(days))}";
}
