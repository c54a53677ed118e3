using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>Signs a report as it stands; the case manager may finish it with the same act.</summary>
public sealed class SignModel(CurrentCaller caller, ReadReport read, SignReport sign) : PageModel
{
    public sealed record Form
    {
        public string? Hash { get; init; }
        public string? Credential { get; init; }
        public bool Finish { get; init; }
        public string? Without { get; init; }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public ReportPage Report { get; private set; } = null!;

    /// <summary>Owners other than the reader who have not signed what stands.</summary>
    public IReadOnlyList<string> Unsigned => [.. Report.Owners.Where(o => !o.HasSigned && !o.IsReader).Select(o => o.Name)];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return Report is null ? NotFound() : Redirect($"/reports/{id}"); // what is signed already can still be read
        Input = new() { Hash = Report.Hash, Credential = Report.OwnCredential };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await sign.RunAsync(caller.Value, Operation, new()
        {
            Report = id,
            Hash = Input.Hash,
            Credential = Input.Credential,
            Finish = Input.Finish,
            Without = Input.Without,
        }, stop);
        if (outcome.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = Input.Finish ? "The report is signed and finished." : "You have signed the report.";
        return Redirect($"/reports/{id}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Report = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Report is { MaySign: true, State: ReportState.Open };
    }
}
