using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>Writes a new version of a routine's card. Its inner buttons send the whole form and get it back, so it needs no script.</summary>
[RequestFormLimits(ValueCountLimit = 2048)]
public sealed class ChangeModel(CurrentCaller caller, ReadRoutine read, WriteRoutine write) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public WriteRoutine.Input Input { get; set; } = new();

    public RoutinePage Shown { get; private set; } = null!;

    /// <summary>What somebody else saved while this form was filled in; empty where nobody did.</summary>
    public IReadOnlyList<CardChange> Meanwhile { get; private set; } = [];

    /// <summary>The wait that is proposed, in words.</summary>
    public string WaitHint { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Number = Shown.Card.Number, Card = CardInput.Of(Shown.Card.Content) };
        return Page();
    }

    /// <summary>Adds, moves, removes or puts back a step, prompt or caution; nothing is saved.</summary>
    public async Task<IActionResult> OnPostArrangeAsync(int id, string? act, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Arranging.Apply(Input.Card, act);
        ModelState.Clear(); // its values would be shown in the old places
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        var outcome = await write.RunAsync(caller.Value, Operation, Input with { Routine = id }, stop);
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = $"Version {saved.Number} is saved.";
            return Redirect($"/routines/{id}");
        }
        if (outcome.Problems.AreOvertaken())
            ShowBoth();
        return this.Refuse(outcome.Problems, $"{nameof(Input)}.{nameof(Input.Card)}");
    }

    /// <summary>The goals of today's plan, and those that the step serves already.</summary>
    public IReadOnlyList<GoalNamed> GoalsFor(CardInput.StepInput step) => [.. Shown.Goals.Values.Where(g => g.IsCurrent || step.Goals.Contains(g.Id))];

    private void ShowBoth()
    {
        var begun = Shown.Versions.FirstOrDefault(v => v.Number == Input.Number)?.Content ?? new();
        Meanwhile = RoutineDifference.Between(begun, Shown.Card.Content, goal => CardView.Goal(Shown, goal));
        Input = Input with { Number = Shown.Card.Number };
        ModelState.Remove($"{nameof(Input)}.{nameof(Input.Number)}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, null, stop))!;
        WaitHint = CardView.Wait(await read.ProposeWaitAsync(caller.Scope, id, stop));
        return Shown is { MayWrite: true, Ended: null };
    }
}
