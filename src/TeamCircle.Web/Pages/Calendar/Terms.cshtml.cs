using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Sets the terms; what it would change is shown first.</summary>
public sealed class TermsModel(CurrentCaller caller, ReadCalendar read, SetTerms set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetTerms.Input Input { get; set; } = new();

    public StatusPreview? Preview { get; private set; }

    /// <summary>What stands now, where somebody else saved meanwhile.</summary>
    public IReadOnlyList<DatedListRow>? Overtaken { get; private set; }

    public async Task OnGetAsync(CancellationToken stop)
    {
        var calendar = await read.RunAsync(caller.Scope, stop);
        Input = new() { Rows = [.. calendar.Terms, new(), new()], Stamp = calendar.TermsStamp };
    }

    public async Task<IActionResult> OnPostPreviewAsync(CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        var outcome = await set.PreviewAsync(caller.Value, Input, stop);
        Preview = outcome.Value;
        return Preview is not null ? Page() : await RefuseAsync(outcome.Problems, stop);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (!ModelState.IsValid)
            return Page();
        var outcome = await set.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            Preview = (await set.PreviewAsync(caller.Value, Input, stop)).Value;
            return await RefuseAsync(outcome.Problems, stop);
        }
        TempData["Done"] = "The terms are saved.";
        return Redirect("/settings/calendar");
    }

    private async Task<IActionResult> RefuseAsync(IReadOnlyList<Core.Problem> problems, CancellationToken stop)
    {
        if (problems.AreOvertaken())
        {
            var now = await read.RunAsync(caller.Scope, stop);
            (Overtaken, Input.Stamp) = (now.Terms, now.TermsStamp);
        }
        return this.Refuse(problems);
    }
}
