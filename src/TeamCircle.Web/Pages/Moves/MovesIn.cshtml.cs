using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>A learner who came with a plan from elsewhere: its words, our comparable services, the records asked for, what became of it.</summary>
public sealed class MovesInModel(CurrentCaller caller, ReadMoveIn read, MoveInActs acts) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty(SupportsGet = true)]
    public int Id { get; set; }

    public BeginMoveIn.Input Input { get; private set; } = new();

    public AddComparable.Input Comparable { get; private set; } = new();

    public AskForRecords.Input Asked { get; private set; } = new();

    public DecideMoveIn.Input Decided { get; private set; } = new();

    public MoveInPage Shown { get; private set; } = null!;

    public bool Manages => caller.Value.Manages(Id);

    public IEnumerable<SelectListItem> Services =>
        [Choices.None("None is given yet"), .. Shown.Services.Select(s => new SelectListItem($"{Say.Discipline(s.Discipline)} ({s.Code})", s.Id.ToString(CultureInfo.InvariantCulture)))];

    /// <summary>A plan from another state is not adopted (34 CFR 300.323(f)).</summary>
    public IEnumerable<SelectListItem> Outcomes => new[] { MoveInStatus.Adopted, MoveInStatus.Replaced }.Where(s => s != MoveInStatus.Adopted || !Shown.In!.OtherState)
        .Select(s => new SelectListItem(Say.Begin(MoveWords.Of(s)), $"{s}"));

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, Id, stop) is not { } page)
            return NotFound();
        Shown = page;
        Input = page.In is { } stands
            ? new() { FromWhere = stands.FromWhere, OtherState = stands.OtherState, FirstDay = stands.FirstDay, Version = stands.Version } : new() { FirstDay = caller.Value.Today };
        Asked = new() { AskedOn = caller.Value.Today };
        Decided = new() { Version = page.In?.Version ?? 0 };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync([Bind(Prefix = nameof(Input))] BeginMoveIn.Input input, CancellationToken stop) => await AnswerAsync(
        await acts.Begin.RunAsync(caller.Value, Operation, input with { Learner = Id }, stop), "Noted.", nameof(Input), () => Input = input, stop);

    public async Task<IActionResult> OnPostServiceAsync([Bind(Prefix = nameof(Comparable))] AddComparable.Input comparable, CancellationToken stop) => await AnswerAsync(
        await acts.Add.RunAsync(caller.Value, Operation, comparable with { Learner = Id }, stop), "Noted.", nameof(Comparable), () => Comparable = comparable, stop);

    public async Task<IActionResult> OnPostTakeBackAsync([FromForm] TakeBackComparable.Input input, CancellationToken stop) => await AnswerAsync(
        await acts.TakeBack.RunAsync(caller.Value, Operation, input with { Learner = Id }, stop), "Taken back.", "", () => { }, stop);

    public async Task<IActionResult> OnPostAskAsync([Bind(Prefix = nameof(Asked))] AskForRecords.Input asked, CancellationToken stop) => await AnswerAsync(
        await acts.Ask.RunAsync(caller.Value, Operation, asked with { Learner = Id }, stop), "Noted.", nameof(Asked), () => Asked = asked, stop);

    public async Task<IActionResult> OnPostReceiveAsync([FromForm] ReceiveRecords.Input input, CancellationToken stop) => await AnswerAsync(
        await acts.Receive.RunAsync(caller.Value, Operation, input with { Learner = Id }, stop), "Noted.", "", () => { }, stop);

    public async Task<IActionResult> OnPostDecideAsync([Bind(Prefix = nameof(Decided))] DecideMoveIn.Input decided, CancellationToken stop)
    {
        var outcome = await acts.Decide.RunAsync(caller.Value, Operation, decided with { Learner = Id }, stop);
        var ended = outcome.Value is { Ended: > 0 and var count } ? $" {Say.Count(count, "comparable service")} {(count == 1 ? "ends" : "end")} the day before." : "";
        return await AnswerAsync(outcome, $"Noted.{ended}", nameof(Decided), () => Decided = decided, stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, string done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{Id}/moves-in");
        }
        if (await OnGetAsync(stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
