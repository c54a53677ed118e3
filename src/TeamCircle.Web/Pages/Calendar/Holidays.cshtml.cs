using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Offers the federal holidays to tick; what they would change is shown first.</summary>
public sealed class HolidaysModel(CurrentCaller caller, OfferHolidays offer, AddHolidays add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddHolidays.Input Input { get; set; } = new();

    public IReadOnlyList<FederalHoliday> Offered { get; private set; } = [];

    public StatusPreview? Preview { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Offered = await offer.RunAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostPreviewAsync(CancellationToken stop)
    {
        Offered = await offer.RunAsync(caller.Scope, stop);
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.PreviewAsync(caller.Value, Input, stop);
        Preview = outcome.Value;
        return Preview is not null ? Page() : this.Refuse(outcome.Problems);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        Offered = await offer.RunAsync(caller.Scope, stop);
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
        {
            Preview = (await add.PreviewAsync(caller.Value, Input, stop)).Value;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = $"{Say.Count(saved.Days, "holiday")} entered in the calendar.";
        return Redirect("/settings/calendar");
    }
}
