using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Data.Road;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Road;

/// <summary>The order of one's own places today, with their addresses, and the ways between them.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadRoad read, SetRoadStart start) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetRoadStart.Input Input { get; set; } = new();

    public RoadToday Shown { get; private set; } = null!;

    public IEnumerable<SelectListItem> Starts => [Choices.None("At the first visit, and at the last"),
        .. Shown.Places.OrderBy(p => p.Value.Code, StringComparer.Ordinal).Select(p => new SelectListItem($"{p.Value.Code}, {p.Value.Name}", $"{p.Key}"))];

    public async Task OnGetAsync(CancellationToken stop)
    {
        Shown = await read.TodayAsync(caller.Value, caller.Scope, stop);
        Input = new() { Place = Shown.Start, Version = Shown.StartVersion };
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = await start.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = "Saved.";
            return Redirect("/road");
        }
        Shown = await read.TodayAsync(caller.Value, caller.Scope, stop);
        if (outcome.Problems.AreOvertaken())
            Input = Input with { Version = Shown.StartVersion };
        return this.Refuse(outcome.Problems);
    }
}
