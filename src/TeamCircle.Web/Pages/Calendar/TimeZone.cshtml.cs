using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The agency's time zone, and its change.</summary>
public sealed class TimeZoneModel(CurrentCaller caller, ChangeTimeZone change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangeTimeZone.Input Input { get; set; } = new();

    public ChangeTimeZone.Standing Standing { get; private set; } = null!;

    public IEnumerable<SelectListItem> Zones => ChangeTimeZone.Zones.Select(z => new SelectListItem(z.Replace('_', ' '), z));

    public async Task OnGetAsync(CancellationToken stop)
    {
        Standing = await change.ReadAsync(caller.Value, caller.Scope, stop);
        Input = new() { Zone = Standing.Zone, Version = Standing.Version };
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = await change.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = $"The agency's clock is that of {saved.Zone} now. {(saved.Moved == 0 ? "No visit had to move." : $"{Say.Count(saved.Moved, "visit")} to come keep their hours there.")}";
            return RedirectToPage();
        }
        Standing = await change.ReadAsync(caller.Value, caller.Scope, stop);
        return this.Refuse(outcome.Problems);
    }
}
