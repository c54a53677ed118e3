using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Takes back an award that was entered wrongly, with a reason.</summary>
public sealed class TakeBackAwardModel(CurrentCaller caller, ReadBroughtForward read, TakeBackAward takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackAward.Input Input { get; set; } = new();

    public AwardRow Award { get; private set; } = null!;

    public string Back => $"/learners/{Award.LearnerId}/brought-forward#awards";

    public Task<IActionResult> OnGetAsync(int id, int award, CancellationToken stop) => ShowAsync(id, award, stop);

    public async Task<IActionResult> OnPostAsync(int id, int award, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await takeBack.RunAsync(caller.Value, Operation, Input with { Learner = id, Award = award }, stop) : null;
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        if (outcome?.Value is not null)
        {
            TempData["Done"] = "The award is taken back. It stays on record.";
            return Redirect($"/learners/{id}/brought-forward#awards");
        }
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Input));
        return await ShowAsync(id, award, stop);
    }

    private async Task<IActionResult> ShowAsync(int id, int award, CancellationToken stop)
    {
        var page = await read.RunAsync(caller.Scope, id, stop);
        if (page?.Awards.FirstOrDefault(a => a.Row.Id == award) is not { } found)
            return page is null ? NotFound() : Redirect($"/learners/{id}/brought-forward#awards");
        Award = found.Row;
        return Page();
    }
}
