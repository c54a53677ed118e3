using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>A shared report as the family reads it.</summary>
public sealed class FamilyModel(CurrentCaller caller, ReadReport read) : PageModel
{
    public FamilyReport Report { get; private set; } = null!;

    public int LearnerId { get; private set; }

    /// <summary>The page before: the family's, or for an outside reviewer the file.</summary>
    public (string Address, string Words) Back =>
        caller.Value.Reviews(LearnerId) ? ($"/learners/{LearnerId}/review", "The file") : ($"/family/{LearnerId}", "Family page");

    public string Child => Report.Child.Split(' ')[0];

    public async Task<IActionResult> OnGetAsync(int id, int report, CancellationToken stop)
    {
        if (await read.ForFamilyAsync(caller.Value, caller.Scope, id, report, stop) is not { } shared)
            return NotFound();
        (LearnerId, Report) = (id, shared);
        return Page();
    }
}
