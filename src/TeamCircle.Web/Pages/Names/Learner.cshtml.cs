using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Names;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Names;

/// <summary>A learner's names: the one on pages, the legal one, and those that are no more.</summary>
public sealed class LearnerModel(CurrentCaller caller, ReadNames read, RenameLearner rename) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public RenameLearner.Input Input { get; set; } = new();

    public NamesPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Version = Shown.Version, Name = Shown.Legal, Called = Shown.Called == Shown.Legal ? null : Shown.Called };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await rename.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = "Saved.";
            return Redirect($"/learners/{id}/names");
        }
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (outcome.Problems.AreOvertaken())
            Input = Input with { Version = Shown.Version };
        return this.Refuse(outcome.Problems);
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.OfLearnerAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is not null;
    }
}
