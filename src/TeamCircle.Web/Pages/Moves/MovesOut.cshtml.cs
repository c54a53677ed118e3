using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>A learner who goes: the last day, what the team passes on, and the file for the receiving agency with how it was sent.</summary>
public sealed class MovesOutModel(CurrentCaller caller, ReadMoveOut read, MoveOutActs acts) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty(SupportsGet = true)]
    public int Id { get; set; }

    public BeginMoveOut.Input Input { get; private set; } = new();

    public WriteTransfer.Input Written { get; private set; } = new();

    public TakeBackMoveOut.Input Back { get; private set; } = new();

    public MoveOutPage Shown { get; private set; } = null!;

    public bool Manages => caller.Value.Manages(Id);

    public IEnumerable<SelectListItem> Grounds { get; } = [.. Enum.GetValues<TransferGround>().Select(g => new SelectListItem(Say.Begin(MoveWords.Of(g)), $"{g}"))];

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, Id, caller.Value.Today, stop) is not { } page)
            return NotFound();
        Shown = page;
        Written = new() { Version = page.Out?.Version ?? 0, Works = page.Out?.Works, WorksNot = page.Out?.WorksNot };
        Back = new() { Version = page.Out?.Version ?? 0 };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync([Bind(Prefix = nameof(Input))] BeginMoveOut.Input input, CancellationToken stop)
    {
        var outcome = await acts.Begin.RunAsync(caller.Value, Operation, input with { Learner = Id }, stop);
        var visits = outcome.Value is { } saved ? $"The last day is set. {Say.Count(saved.Visits, "visit")} to come {(saved.Visits == 1 ? "is" : "are")} not planned any more." : "";
        return await AnswerAsync(outcome, visits, nameof(Input), () => Input = input, stop);
    }

    public async Task<IActionResult> OnPostWriteAsync([Bind(Prefix = nameof(Written))] WriteTransfer.Input written, CancellationToken stop) => await AnswerAsync(
        await acts.Write.RunAsync(caller.Value, Operation, written with { Learner = Id }, stop), "Saved.", nameof(Written), () => Written = written, stop);

    public async Task<IActionResult> OnPostMakeAsync([FromForm] int version, CancellationToken stop) => await AnswerAsync(
        await acts.Make.RunAsync(caller.Value, Operation, new(Id, version), stop), "The file is made, as all stands now. Note below when and how it was sent.", "", () => { }, stop);

    public async Task<IActionResult> OnPostSentAsync([FromForm] NoteSent.Input input, CancellationToken stop) => await AnswerAsync(
        await acts.Sent.RunAsync(caller.Value, Operation, input with { Learner = Id }, stop), "Noted.", "", () => { }, stop);

    public async Task<IActionResult> OnPostTakeBackAsync([Bind(Prefix = nameof(Back))] TakeBackMoveOut.Input back, CancellationToken stop) => await AnswerAsync(
        await acts.TakeBack.RunAsync(caller.Value, Operation, back with { Learner = Id }, stop), "Taken back: services, goals and visits stand as before.", nameof(Back), () => Back = back, stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, string done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{Id}/moves-out");
        }
        if (await OnGetAsync(stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
