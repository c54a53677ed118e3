using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Disputes;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Disputes;

/// <summary>Holds a learner's records between two days with one short form.</summary>
public sealed class HoldModel(CurrentCaller caller, ReadRecordHolds read, HoldRecords hold) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public HoldRecords.Input Input { get; set; } = new();

    public string Learner { get; private set; } = "";

    /// <param name="from">What the link before named.</param>
    public async Task<IActionResult> OnGetAsync(int id, LocalDate? from, LocalDate? to, CancellationToken stop)
    {
        Input = new() { FromDay = from, ToDay = to };
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await hold.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        if (outcome?.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = "The records of these days are held.";
        return Redirect($"/learners/{id}/record-holds");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        var page = await read.RunAsync(caller.Value, caller.Scope, id, stop);
        Learner = page?.Learner ?? "";
        return page is { MaySet: true };
    }
}
