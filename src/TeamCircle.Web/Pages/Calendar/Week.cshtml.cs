using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>A week of a learner, of oneself or of teams, as a timetable and as a list.</summary>
public sealed class WeekModel(CurrentCaller caller, ReadWeek read, ReadStandingLines standings) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int? Learner { get; set; }

    [BindProperty(SupportsGet = true)]
    public bool Team { get; set; }

    /// <summary>Any day of the week; what can't be read as a day is this week.</summary>
    [BindProperty(SupportsGet = true)]
    public LocalDate? Week { get; set; }

    /// <summary>Whether the list is shown where there is room for the timetable too.</summary>
    [BindProperty(SupportsGet = true)]
    public bool List { get; set; }

    public CalendarWeek Shown { get; private set; } = null!;

    public WeekGrid Grid { get; private set; } = null!;

    /// <summary>Services of the learner with a window in this week; empty for other weeks' views.</summary>
    public IReadOnlyList<WaitingWindow> Windows { get; private set; } = [];

    public LocalDate Today => caller.Value.Today;

    public WeekAddress Here => new(Learner, Team, Shown.Days.Contains(Today) ? null : Shown.First, List);

    public string? LearnerName => Shown.Learners.FirstOrDefault(l => l.Id == Learner)?.Name;

    public WeekWords Words => new(Learner, Team, caller.Value.PersonId);

    public IEnumerable<SelectListItem> Learners => Shown.Learners.Select(l => new SelectListItem(l.Name, $"{l.Id}"));

    /// <summary>The learner's visits may be scheduled by their case manager and by who works with them, and everybody's own by themselves.</summary>
    public bool MaySchedule => !Team && (Learner is not { } learner
        ? caller.Value.Is(Role.Provider)
        : CalendarRules.MayPlan(caller.Value, learner, caller.Value.PersonId));

    /// <summary>One's own visits to come can be dragged to another time; the form that changes them does the same without a pointer.</summary>
    public bool MayMove(WeekVisit? visit) => visit is { State: VisitState.Planned } && visit.ProviderId == caller.Value.PersonId && visit.On >= Today;

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, new(Learner, Team, Week), stop) is not { } week)
            return NotFound();
        Shown = week;
        Grid = new WeekGrid(week, MaySchedule, Today);
        if (Learner is { } learner && !Team)
            Windows = WindowsOf(await standings.RunAsync(caller.Scope, Today, learner, stop));
        return Page();
    }

    private List<WaitingWindow> WindowsOf(Standings all)
    {
        var day = Shown.Days.Contains(Today) ? Today : Shown.First > Today ? Shown.First : Shown.Last;
        return [.. all.Lines.Where(l => !l.Line.IsProbes).Select(l => l.WindowOn(day) is { } w ? new WaitingWindow(l, w) : null).OfType<WaitingWindow>()];
    }
}
