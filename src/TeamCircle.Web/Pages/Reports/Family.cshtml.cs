using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Pages.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>A shared report as the family reads it.</summary>
public sealed class FamilyModel(CurrentCaller caller, ReadReport read) : PageModel
{
    public FamilyReport Report { get; private set; } = null!;

    public int LearnerId { get; private set; }

    public FamilySentences Words { get; private set; } = null!;

    /// <summary>The page before: the family's, or for an outside reviewer the file.</summary>
    public (string Address, string Words) Back =>
        caller.Value.Reviews(LearnerId) ? ($"/learners/{LearnerId}/review", "The file") : ($"/family/{LearnerId}", Words.Say(FamilyGlossary.Back));

    public async Task<IActionResult> OnGetAsync(int id, int report, CancellationToken stop)
    {
        if (await read.ForFamilyAsync(caller.Value, caller.Scope, id, report, stop) is not { } shared)
            return NotFound();
        (LearnerId, Report) = (id, shared);
        Words = new(FamilyLanguage.Of(HttpContext), shared.Child.Split(' ')[0], null);
        return Page();
    }
}
