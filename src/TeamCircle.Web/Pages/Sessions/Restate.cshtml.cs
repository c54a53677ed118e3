using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Pages.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Corrects a visit whose count is closed: the correction and another edition of the statement, under one signature.</summary>
public sealed class RestateModel(CurrentCaller caller, ReadVisit visits, ReadCount counts, RestatePeriod restate) : PageModel
{
    public sealed record Form
    {
        public int Statement { get; init; }
        public string? Credential { get; init; }

        /// <summary>By the obstacle's key.</summary>
        public Dictionary<string, string?> Why { get; init; } = [];
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public CorrectSession.Input Input { get; set; } = new();

    [BindProperty]
    public Form Signature { get; set; } = new();

    public VisitPage Visit { get; private set; } = null!;

    public CountPage Count { get; private set; } = null!;

    public IEnumerable<ObstacleView> Obstacles =>
        Count.Obstacles.Select(o => new ObstacleView(Count, o, Signature.Why.GetValueOrDefault(o.Obstacle.Key)) { Form = nameof(Signature) });

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await LoadAsync(id, stop) is { } elsewhere)
            return elsewhere;
        Input = SessionForm.Begin(Visit.Standing!, Visit.AwardId);
        Signature = new() { Statement = Count.Editions[0].Id, Credential = Count.Credential, Why = ClosingRules.Said(Count.Editions[0].Left) };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await LoadAsync(id, stop) is { } elsewhere)
            return elsewhere;
        if (!ModelState.IsValid)
            return Page();
        var outcome = await restate.RunAsync(caller.Value, Operation, new()
        {
            Learner = Count.LearnerId,
            Period = Count.Period.Id,
            Statement = Signature.Statement,
            Reason = Input.Why,
            Correction = Input,
            Credential = Signature.Credential,
            Words = Signature.Why,
        }, stop);
        if (outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        if (outcome.Value is not { } restated)
        {
            foreach (var problem in outcome.Problems)
                ModelState.AddModelError(FieldOf(problem), problem.Message);
            return Page();
        }
        TempData["Done"] = $"The visit is corrected and the count restated, as edition {Say.Number(restated.Edition)}. The one before it stays.";
        return Redirect($"/learners/{Count.LearnerId}/close/{Count.Period.Id}");
    }

    /// <summary>Null where the visit stands in a closed count; otherwise its own page, or nothing.</summary>
    private async Task<IActionResult?> LoadAsync(Guid id, CancellationToken stop)
    {
        if (await visits.RunAsync(caller.Scope, caller.Value, id, stop) is not { } visit)
            return NotFound();
        if (visit.Standing is null || await counts.ClosedOnAsync(caller.Value, caller.Scope, visit.Service.LearnerId, visit.OnDay, stop) is not { Editions.Count: > 0 } count)
            return Redirect($"/visits/{id}");
        (Visit, Count) = (visit, count);
        return null;
    }

    // A statement that another one follows is no field; the reason of the restatement is that of the correction.
    private string FieldOf(Problem problem) => problem.Field switch
    {
        "" or Problem.VersionField => "",
        nameof(Form.Credential) => $"{nameof(Signature)}.{problem.Field}",
        nameof(RestatePeriod.Input.Reason) when string.IsNullOrWhiteSpace(Input.Why) => $"{nameof(Input)}.{nameof(Input.Why)}",
        var field when field.StartsWith("Why[", StringComparison.Ordinal) => $"{nameof(Signature)}.{field}",
        var field => $"{nameof(Input)}.{field}",
    };
}
