using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>In which hours a person works.</summary>
public sealed class WorkingHoursModel(CurrentCaller caller, ReadPlaces read, SetWorkingHours set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetWorkingHours.Input Input { get; set; } = new();

    public HoursPage Hours { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Person = id, Week = Hours.Week, MostMinutes = Hours.MostMinutes };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input.Person = id;
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is null)
            return this.Refuse(outcome?.Problems ?? []);
        TempData["Done"] = "The hours are saved.";
        return Redirect($"/settings/people/{id}/hours");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Hours = (await read.OfPersonAsync(caller.Scope, id, caller.Value.Today, stop))!;
        return Hours is not null;
    }
}
