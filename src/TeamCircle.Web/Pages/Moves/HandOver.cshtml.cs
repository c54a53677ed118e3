using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Data.Moves;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>Hands one learner of somebody who leaves over to a successor, undoes it, and files what can no longer be written.</summary>
public sealed class HandOverModel(CurrentCaller caller, ReadLastDay read, HandOverActs acts) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public HandOverLearner.Input Input { get; private set; } = new();

    public UndoHandOver.Input Undone { get; private set; } = new();

    public HandOverPage Shown { get; private set; } = null!;

    /// <summary>What was handed over of this learner and can still be undone; null: nothing.</summary>
    public HandedOverShown? Standing { get; private set; }

    public IReadOnlyList<SelectListItem> Colleagues => Choices.People(Shown.Colleagues.Select(c => new Colleague(c.Id, c.Name)), "Nobody yet");

    public IReadOnlyList<SelectListItem> Managers => Choices.People(Shown.Managers.Select(c => new Colleague(c.Id, c.Name)), "Nobody yet");

    /// <summary>Visits to come that a hand-over left on the list; empty before one.</summary>
    public IReadOnlyList<HandOverItem> Against => Shown.HandedOver.Count == 0 ? [] : [.. Shown.Items.Where(i => i.Kind == HandOverKind.VisitToCome)];

    public bool CanBeFiled(HandOverItem item) => HandOverList.CanBeFiled(item.Kind, Shown.Last.Day, caller.Value.Today);

    /// <summary>What happens where nobody takes over yet.</summary>
    public string WithNobody => "With nobody yet, series of visits end, single visits are called off, and the days without service count."
        + (Shown.Has(HandOverKind.Supervision) ? " An assistant stays on the list until somebody supervises them." : "");

    public async Task<IActionResult> OnGetAsync(int id, int person, CancellationToken stop)
    {
        if (await read.OfLearnerAsync(caller.Value, caller.Scope, id, person, stop) is not { } page)
            return Redirect($"/people/{person}/last-day");
        Shown = page;
        Standing = page.HandedOver.FirstOrDefault(h => h.MayUndo);
        Input = new() { FromDay = page.Last.Day.PlusDays(1) };
        Undone = new() { HandOver = Standing?.Id ?? 0, Version = Standing?.Version ?? 0 };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int person, [Bind(Prefix = nameof(Input))] HandOverLearner.Input input, CancellationToken stop)
    {
        var outcome = await acts.HandOver.RunAsync(caller.Value, Operation, input with { Learner = id, Person = person }, stop);
        return await AnswerAsync(outcome, id, person, outcome.Value is { } saved ? MoveWords.Of(saved) : "", nameof(Input), () => Input = input, stop);
    }

    public async Task<IActionResult> OnPostUndoAsync(int id, int person, [Bind(Prefix = nameof(Undone))] UndoHandOver.Input undone, CancellationToken stop) => await AnswerAsync(
        await acts.Undo.RunAsync(caller.Value, Operation, undone with { Learner = id }, stop), id, person, "Undone: all stands as it did before.", nameof(Undone), () => Undone = undone, stop);

    public async Task<IActionResult> OnPostFileAsync(int id, int person, [FromForm] FileItem.Input input, CancellationToken stop) => await AnswerAsync(
        await acts.File.RunAsync(caller.Value, Operation, input with { Learner = id, Person = person }, stop), id, person, "Filed. It is shown where it would have stood.", "", () => { }, stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, int person, string done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/people/{person}/last-day");
        }
        if (await OnGetAsync(id, person, stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
