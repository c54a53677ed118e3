using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>Corrects a probe, or takes it back, with a reason. Who loses a race sees what stands and keeps what was typed.</summary>
public sealed class CorrectProbeModel(CurrentCaller caller, ReadGoal read, CorrectProbe correct, TakeBackProbe takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public CorrectProbe.Input Input { get; set; } = new();

    public GoalPage Goal { get; private set; } = null!;

    /// <summary>The probe that the address names.</summary>
    public ProbeOnRecord Probe { get; private set; } = null!;

    /// <summary>What stands in its place now; null where it was taken back.</summary>
    public ProbeOnRecord? Now { get; private set; }

    /// <summary>For the second form on the page: taking back is another operation than correcting.</summary>
    public Guid OtherOperation { get; } = Guid.CreateVersion7();

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!Probe.Live)
            return Redirect($"/goals/{Goal.Id}");
        Input = new()
        {
            OnDay = Probe.OnDay,
            Value = Probe.Value,
            Opportunities = Probe.Opportunities,
            Kind = Probe.Kind,
            Stage = Probe.Stage,
            PaysOn = Probe.PaysOn,
            Conditions = Probe.Conditions.Words,
            State = Probe.Conditions.State,
            Position = Probe.Conditions.Position,
            Side = Probe.Conditions.Side,
            Place = Probe.Conditions.Place,
        };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await correct.RunAsync(caller.Value, Operation, Input with { Probe = id }, stop) : null;
        return await AnswerAsync(id, outcome, stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(Guid id, string? why, CancellationToken stop) =>
        await AnswerAsync(id, await takeBack.RunAsync(caller.Value, Operation, new() { Probe = id, Why = why }, stop), stop);

    private async Task<IActionResult> AnswerAsync(Guid id, Outcome<SavedProbe>? outcome, CancellationToken stop)
    {
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/goals/{saved.Goal}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true || !await LoadAsync(id, stop))
            return NotFound();
        var isOvertaken = outcome?.Problems.Any(p => p.Field == Problem.VersionField) == true;
        ModelState.AddProblems([.. (outcome?.Problems ?? []).Where(p => p.Field != Problem.VersionField)], nameof(Input));
        var page = Page();
        page.StatusCode = isOvertaken ? StatusCodes.Status409Conflict : null;
        return page;
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken stop)
    {
        var goal = await read.OfProbeAsync(caller.Scope, caller.Value, id, stop);
        if (goal?.Probe(id) is not { } probe)
            return false;
        (Goal, Probe, Now) = (goal, probe, goal.StandingFor(probe));
        return Now is null || Now.MayChange;
    }
}
