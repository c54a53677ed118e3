using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Disputes;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Disputes;

/// <summary>Ends a hold on records, with the reason. Whoever may not end this one, or comes too late, is led to the list.</summary>
public sealed class EndHoldModel(CurrentCaller caller, ReadRecordHolds read, EndRecordHold end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndRecordHold.Input Input { get; set; } = new();

    public string Learner { get; private set; } = "";

    public RecordHoldShown Hold { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int recordHold, CancellationToken stop)
    {
        if (!await LoadAsync(id, recordHold, stop))
            return Redirect($"/learners/{id}/record-holds");
        Input = new() { Version = Hold.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int recordHold, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await end.RunAsync(caller.Value, Operation, Input with { Learner = id, Hold = recordHold }, stop) : null;
        if (outcome?.Value is not null)
        {
            TempData["Done"] = "The hold has ended.";
            return Redirect($"/learners/{id}/record-holds");
        }
        return await LoadAsync(id, recordHold, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
    }

    private async Task<bool> LoadAsync(int id, int hold, CancellationToken stop)
    {
        var page = await read.RunAsync(caller.Value, caller.Scope, id, stop);
        if (page?.Holds.SingleOrDefault(h => h.Id == hold && h.MayEnd) is not { } standing)
            return false;
        (Learner, Hold) = (page.Learner, standing);
        return true;
    }
}
