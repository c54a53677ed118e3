using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>One progress report: the document itself, with what is still to be done about it. Printed, only the document is left.</summary>
public sealed class ReportModel(CurrentCaller caller, ReadReport read, BringInFigures figures, ShareReport share) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public ReportPage Shown { get; private set; } = null!;

    public bool IsOpen => Shown.State == ReportState.Open;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } report)
            return NotFound();
        Shown = report;
        return Page();
    }

    public async Task<IActionResult> OnPostFiguresAsync(int id, int version, CancellationToken stop) =>
        await AnswerAsync(id, await figures.RunAsync(caller.Value, Operation, new() { Report = id, Version = version }, stop), "The figures are as recorded today.", stop);

    public async Task<IActionResult> OnPostShareAsync(int id, int version, bool shared, CancellationToken stop) => await AnswerAsync(
        id, await share.RunAsync(caller.Value, Operation, new() { Report = id, Version = version, Share = shared }, stop),
        shared ? "The family can read it now." : "The family can no longer read it.", stop);

    private async Task<IActionResult> AnswerAsync<T>(int id, Outcome<T> outcome, string done, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/reports/{id}");
        }
        if (outcome.Problems.Contains(Problem.NotFound) || await OnGetAsync(id, stop) is not PageResult page)
            return NotFound();
        ModelState.AddProblems([.. outcome.Problems.Select(p => p with { Field = "" })], "");
        return page;
    }
}
