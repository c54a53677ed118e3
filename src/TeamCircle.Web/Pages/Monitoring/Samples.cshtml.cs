using System.Security.Cryptography;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>Samples of files: those that were drawn, and one short form for another.</summary>
public sealed class SamplesModel(CurrentCaller caller, ReadAudit audit, ReadSamples read, DrawSample draw) : PageModel
{
    private const int UsualFiles = 10;

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public DrawSample.Input Input { get; set; } = new();

    public IReadOnlyList<SampleListed> Listed { get; private set; } = [];

    public IReadOnlyList<SelectListItem> Periods { get; private set; } = [];

    public IReadOnlyList<SelectListItem> Disciplines { get; } =
        [new("any kind", ""), .. Enum.GetValues<Discipline>().Select(d => new SelectListItem(Say.Discipline(d), $"{d}"))];

    public async Task OnGetAsync(CancellationToken stop)
    {
        Input = new() { Size = UsualFiles, Seed = RandomNumberGenerator.GetInt32(1, int.MaxValue) };
        await LoadAsync(stop);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await draw.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } saved)
            return Redirect($"/audit/monitor/samples/{saved.Sample}");
        await LoadAsync(stop);
        return this.Refuse(outcome?.Problems ?? []);
    }

    private async Task LoadAsync(CancellationToken stop)
    {
        var periods = await audit.PeriodsAsync(caller.Scope, stop);
        var usual = Input.Period ?? periods.FindLast(p => p.StartDay <= caller.Value.Today)?.Id;
        Input = Input with { Period = usual };
        Periods = [.. periods.Select(p => new SelectListItem(p.Name, $"{p.Id}"))];
        Listed = await read.RunAsync(caller.Scope, stop);
    }
}
