using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>After how many school days a time away without an end asks the case manager to meet.</summary>
public sealed class AwayMeetingModel(CurrentCaller caller, ReadCalendar read, SetAwayMeetingDays set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetAwayMeetingDays.Input Input { get; set; } = new();

    /// <summary>What stands now, where somebody else saved meanwhile.</summary>
    public int? Overtaken { get; private set; }

    public async Task OnGetAsync(CancellationToken stop)
    {
        var now = (await read.RunAsync(caller.Scope, stop)).AwayMeeting;
        Input = new() { Days = now.Days, Version = now.Version };
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = $"Saved: {Say.Count(saved.Days, "school day")}.";
            return Redirect("/settings/calendar");
        }
        var problems = outcome?.Problems ?? [];
        if (problems.AreOvertaken())
        {
            var now = (await read.RunAsync(caller.Scope, stop)).AwayMeeting;
            (Overtaken, Input) = (now.Days, Input with { Version = now.Version });
        }
        return this.Refuse(problems);
    }
}
