using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>A learner's progress reports, period by period; one is begun here.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadReports read, BeginReport begin) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public ReportsPage Reports { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } reports)
            return NotFound();
        Reports = reports;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int period, CancellationToken stop)
    {
        var outcome = await begin.RunAsync(caller.Value, Operation, new() { Learner = id, Period = period }, stop);
        if (outcome.Value is { } saved)
            return Redirect($"/reports/{saved.Report}");
        if (outcome.Problems.Contains(Problem.NotFound) || await OnGetAsync(id, stop) is not PageResult page)
            return NotFound();
        ModelState.AddProblems(outcome.Problems, "");
        return page;
    }
}
