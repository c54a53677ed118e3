using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime.Text;
using TeamCircle.Core;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>Takes a decision back, with a reason.</summary>
public sealed class TakeBackDecisionModel(CurrentCaller caller, ReadDecide read, TakeBackDecision takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackDecision.Input Input { get; set; } = new();

    public DecisionRow Decision { get; private set; } = null!;

    /// <summary>The page that decides on the same window.</summary>
    public string Back => Decision.ServiceId is { } service
        ? $"/audit/services/{service}/decide?day={LocalDatePattern.Iso.Format(Decision.OnDay)}"
        : $"/audit/goals/{Decision.GoalId}/decide?day={LocalDatePattern.Iso.Format(Decision.OnDay)}&owner={Decision.OwnerId}";

    public Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => ShowAsync(id, stop);

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await takeBack.RunAsync(caller.Value, Operation, Input with { Decision = id }, stop) : null;
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        ModelState.AddProblems([.. (outcome?.Problems ?? []).Where(p => p.Field != Problem.VersionField)], nameof(Input));
        var shown = await ShowAsync(id, stop);
        if (outcome?.Value is null)
            return shown;
        TempData["Done"] = "Taken back. What it was about is undecided again.";
        return Redirect(Back);
    }

    private async Task<IActionResult> ShowAsync(int id, CancellationToken stop)
    {
        if (await read.DecisionAsync(caller.Value, id, stop) is not { } decision)
            return NotFound();
        Decision = decision;
        return Page();
    }
}
