using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Enters a closure or an extra day; what it would change is shown first.</summary>
public sealed class AddClosureModel(CurrentCaller caller, AddClosure add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddClosure.Input Input { get; set; } = new();

    public StatusPreview? Preview { get; private set; }

    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostPreviewAsync(CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.PreviewAsync(caller.Value, Input, stop);
        Preview = outcome.Value;
        return Preview is not null ? Page() : this.Refuse(outcome.Problems);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
        {
            Preview = (await add.PreviewAsync(caller.Value, Input, stop)).Value;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = $"{Say.Count(saved.Days, "day")} entered in the calendar."
            + (saved.Visits > 0 ? $" {ClosureVisitsModel.Stand(saved.Visits)} there: look below whether they are to be cancelled." : "");
        return Redirect("/settings/calendar");
    }
}
