using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>A person's own day, and what waits for them.</summary>
public sealed class TodayModel(CurrentCaller caller, ReadMyDay today, ReadStandingLines standings, ReadCaseload learners) : PageModel
{
    public LocalDate Date { get; private set; }

    public MyDay Day { get; private set; } = null!;

    public Waiting Waiting { get; private set; } = null!;

    public CaseloadNames Names { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken stop)
    {
        Date = caller.Value.Today;
        Day = await today.RunAsync(caller.Value, caller.Scope, stop);
        Names = await learners.NamesAsync(caller.Scope, stop);
        Waiting = Waiting.For(caller.Value, await standings.RunAsync(caller.Scope, Date, null, stop), Names.WeekEnd(Date));
    }

    public bool NothingWaits => Waiting.IsEmpty && Day.ToCheck.IsEmpty && Day.NotLogged.Count + Day.Together.Count + Day.Declined.Count + Day.ToMeet.Count + Day.SetAside + Day.Reports.Count == 0;
}
