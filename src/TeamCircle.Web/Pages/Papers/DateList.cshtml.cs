using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Papers;
using TeamCircle.Data;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>The days that bind of all learners in reach: a case manager's own, or for an administrator the agency's by their codes.</summary>
public sealed class DateListModel(CurrentCaller caller, ReadDates read) : PageModel
{
    /// <summary>As many as a page holds.</summary>
    private const int MostListed = 200;

    private const int AllDays = 0;

    [BindProperty(SupportsGet = true)]
    public BoundKind? Kind { get; set; }

    /// <summary>Calendar days ahead; 0 for all. What has passed is always shown.</summary>
    [BindProperty(SupportsGet = true)]
    public int Days { get; set; } = BoundDates.DaysAhead;

    public IReadOnlyList<ListedDate> Shown { get; private set; } = [];

    /// <summary>How many more there are than shown.</summary>
    public int Left { get; private set; }

    public string Sum { get; private set; } = "";

    public LocalDate Today => caller.Value.Today;

    /// <summary>Whether the reader reaches the whole agency and not learners of their own.</summary>
    public bool IsWhole => caller.Scope.Wall != Wall.Person;

    public IEnumerable<SelectListItem> Kinds { get; } =
        [new("All", ""), .. Enum.GetValues<BoundKind>().Select(k => new SelectListItem(Say.Begin(PaperWords.Of(k)), $"{k}"))];

    public IEnumerable<SelectListItem> Horizons { get; } =
        [new("30 days", "30"), new("60 days", "60"), new("90 days", "90"), new("All", $"{AllDays}")];

    /// <summary>Whether the reader looks as far ahead as can be, at days of all kinds.</summary>
    public bool IsAll => Days == AllDays && Kind is null;

    /// <summary>Where one goes on when nothing is listed.</summary>
    public string Further => IsAll ? "/caseload" : $"/dates?days={AllDays}";

    public bool Waits(ListedDate listed) => caller.Value.Manages(listed.Date.Learner) && BoundDates.Waits(listed.Date, Today);

    public async Task OnGetAsync(CancellationToken stop)
    {
        var dates = (await read.AllAsync(caller.Value, caller.Scope, stop))
            .Where(d => (Kind is null || d.Date.Kind == Kind) && (Days == AllDays || BoundDates.DaysUntil(d.Date.Due, Today) <= Days)).ToList();
        Shown = [.. dates.Take(MostListed)];
        Left = dates.Count - Shown.Count;
        var overdue = dates.Count(d => BoundDates.Of(d.Date.Due, Today) == Nearness.Overdue);
        Sum = $"{Say.Count(dates.Count, "day")}{(overdue > 0 ? $", {Say.Number(overdue)} of them overdue" : "")}.";
    }
}
