using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>The days that bind of one learner, those that have passed first.</summary>
public sealed class DatesModel(CurrentCaller caller, ReadDates read, AddBoundDate add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddBoundDate.Input Input { get; set; } = new();

    public DatesPage Dates { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public DateLines Lines => new(Dates.Dates, Today, Dates.Calendar, Dates.MayKeep, Dates.IsQuiet);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await add.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        if (outcome?.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = "The day stands in the list.";
        return Redirect($"/learners/{id}/dates");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Dates = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Dates is not null;
    }
}
