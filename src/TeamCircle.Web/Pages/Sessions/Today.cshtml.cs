using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Beginning;
using TeamCircle.Core.Calendar;
using TeamCircle.Data;
using TeamCircle.Data.Beginning;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>A person's own day, and what waits for them.</summary>
public sealed class TodayModel(CurrentCaller caller, ReadMyDay today, ReadStandingLines standings, ReadCaseload learners) : PageModel
{
    public LocalDate Date { get; private set; }

    public MyDay Day { get; private set; } = null!;

    public Waiting Waiting { get; private set; } = null!;

    /// <summary>How far the agency has come, for those who set it up; null for all others.</summary>
    public BeginningFacts? Beginning { get; private set; }

    public CaseloadNames Names { get; private set; } = null!;

    /// <summary>Whether there is a learner for whom the reader plans visits: whoever only stands in does not.</summary>
    public bool MaySchedule => caller.Value.Learners.Any(l => CalendarRules.MayPlan(caller.Value, l, caller.Value.PersonId));

    /// <param name="quiet">Nobody is asked to act for a learner who is quiet.</param>
    public async Task OnGetAsync([FromServices] ReadQuiet quiet, [FromServices] ReadBeginning beginning, CancellationToken stop)
    {
        Date = caller.Value.Today;
        Beginning = await beginning.RunAsync(caller.Value, stop);
        var heard = await quiet.LeaveOutAsync(caller.Value, stop);
        var scope = Scope.Of(heard, caller.Scope.Ground);
        Day = await today.RunAsync(heard, scope, stop);
        Names = await learners.NamesAsync(scope, stop);
        Waiting = Waiting.For(heard, (await standings.RunAsync(scope, Date, null, stop)).SeenBy(heard), Names.WeekEnd(Date));
    }

    public bool NothingWaits => Waiting.IsEmpty && Day.ToCheck.IsEmpty && !Day.PeopleWait && Day.NotLogged.Count + Day.Together.Count + Day.Declined.Count + Day.ToMeet.Count + Day.SetAside + Day.Reports.Count + Day.Remarks.Count + Day.Requests.Count + Day.Things.Count + Day.OfAge.Count + Day.DatesNear + Day.ToClose.Count + Day.ToReopen.Count + Day.LastDays.Count == 0;
}
