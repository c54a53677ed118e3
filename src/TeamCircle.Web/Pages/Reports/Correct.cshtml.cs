using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>Begins another edition of a finished report, with the reason.</summary>
public sealed class CorrectModel(CurrentCaller caller, ReadReport read, CorrectReport correct) : PageModel
{
    public sealed record Form
    {
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public ReportPage Report { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return Report is null ? NotFound() : Redirect($"/reports/{id}"); // an open one is simply changed
        Input = new() { Version = Report.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await correct.RunAsync(caller.Value, Operation, new() { Report = id, Version = Input.Version, Reason = Input.Reason }, stop);
        if (outcome.Value is not { } saved)
            return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = "Another edition is begun. The one before stays as it was signed.";
        return Redirect($"/reports/{saved.Report}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Report = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Report is { Manages: true, State: ReportState.Finished or ReportState.Shared };
    }
}
