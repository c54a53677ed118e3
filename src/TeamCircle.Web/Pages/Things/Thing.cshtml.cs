using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Things;
using TeamCircle.Data.Things;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Things;

/// <summary>The quick form of one act.</summary>
/// <param name="Typed">What was typed and refused; null where nothing was.</param>
public sealed record ThingActView(ThingAct Act, ThingShown Thing, LocalDate Today, NoteThing.Input? Typed);

/// <summary>One thing that was promised: how it stands, what happened to it, and one quick act each.</summary>
public sealed class ThingModel(CurrentCaller caller, ReadThings read, ThingTurns turns) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public NoteThing.Input Input { get; private set; } = new();

    public TakeBackThingEvent.Input Back { get; private set; } = new();

    public EndThing.Input Ending { get; private set; } = new();

    public ThingPage Shown { get; private set; } = null!;

    public IEnumerable<ThingAct> Acts => Shown is { MayNote: true, Thing.EndedOn: null } ? ThingRules.Next(Shown.Thing.Story, Shown.Thing.Kind) : [];

    /// <summary>The entry that can be taken back; null where there is none.</summary>
    public int? LastEntry => Shown.MayNote ? Shown.Entries.FirstOrDefault(e => e.Live)?.Id : null;

    public ThingActView View(ThingAct act) => new(act, Shown.Thing, caller.Value.Today, Input.Act == act ? Input : null);

    public async Task<IActionResult> OnGetAsync(int id, int thing, CancellationToken stop)
    {
        if (await read.OneAsync(caller.Value, caller.Scope, id, thing, stop) is not { } page)
            return NotFound();
        Shown = page;
        Ending = new() { LastDay = page.Thing.EndedOn ?? caller.Value.Today, Why = page.Thing.EndedWhy };
        return Page();
    }

    public async Task<IActionResult> OnPostNoteAsync(int id, int thing, [Bind(Prefix = nameof(Input))] NoteThing.Input input, CancellationToken stop) =>
        await AnswerAsync(await turns.Note.RunAsync(caller.Value, Operation, input with { Learner = id, Thing = thing }, stop), id, thing, "Noted.", nameof(Input), () => Input = input, stop);

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int thing, [Bind(Prefix = nameof(Back))] TakeBackThingEvent.Input back, CancellationToken stop) =>
        await AnswerAsync(await turns.TakeBack.RunAsync(caller.Value, Operation, back with { Learner = id, Thing = thing }, stop), id, thing, "Taken back.", nameof(Back), () => Back = back, stop);

    public async Task<IActionResult> OnPostEndAsync(int id, int thing, [Bind(Prefix = nameof(Ending))] EndThing.Input ending, CancellationToken stop) =>
        await AnswerAsync(await turns.End.RunAsync(caller.Value, Operation, ending with { Learner = id, Thing = thing }, stop), id, thing, ending.TakeBack ? "It is promised again." : "It is promised no more.", nameof(Ending), () => Ending = ending, stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, int thing, string done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{id}/things/{thing}");
        }
        if (await OnGetAsync(id, thing, stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
