using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Rights;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Rights;

/// <summary>One request about a record: its answer, a hearing, the parent's statement.</summary>
public sealed class RequestModel(CurrentCaller caller, ReadRequests read, AnswerRequest answer, RequestTurns turns) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public AnswerRequest.Input Input { get; private set; } = new();

    public NoteHearing.Input Hearing { get; private set; } = new();

    public AddStatement.Input Statement { get; private set; } = new();

    public RequestPage Shown { get; private set; } = null!;

    public IEnumerable<SelectListItem> Answers => RequestRules.Answers(Shown.Request.Kind).Select(a => new SelectListItem(Say.Begin(RightsWords.Of(a)), $"{a}"));

    public IEnumerable<SelectListItem> Places => Shown.Places.Select(p => new SelectListItem(RightsWords.Of(p), p.Place.Value));

    public async Task<IActionResult> OnGetAsync(int id, int request, CancellationToken stop)
    {
        if (await read.OneAsync(caller.Value, caller.Scope, id, request, stop) is not { } page)
            return NotFound();
        Shown = page;
        var stands = page.Request;
        Input = new() { Version = stands.Version, AnsweredOn = caller.Value.Today };
        Hearing = new() { HearingAskedOn = stands.HearingAskedOn, HearingEndedOn = stands.HearingEndedOn, HearingOutcome = stands.HearingOutcome };
        Statement = new() { GivenOn = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAnswerAsync(int id, int request, [Bind(Prefix = nameof(Input))] AnswerRequest.Input input, CancellationToken stop) =>
        await AnswerAsync(await answer.RunAsync(caller.Value, Operation, input with { Learner = id, Request = request }, stop),
            id, request, "The answer is noted.", nameof(Input), () => Input = input, stop);

    /// <summary>The whole record as one file, for who asked to see it. It stands in the record of access before it is read.</summary>
    public async Task<IActionResult> OnPostCopyAsync(int id, int request, CancellationToken stop)
    {
        var outcome = await turns.Copy.RunAsync(caller.Value, Operation, new() { Learner = id, Request = request }, stop);
        return outcome.Value is { } saved && await turns.Read.RunAsync(caller.Value, id, stop) is { } copy ? new CopyFile(copy, saved.For) : NotFound();
    }

    public async Task<IActionResult> OnPostHearingAsync(int id, int request, [Bind(Prefix = nameof(Hearing))] NoteHearing.Input hearing, CancellationToken stop) =>
        await AnswerAsync(await turns.Hearing.RunAsync(caller.Value, Operation, hearing with { Learner = id, Request = request }, stop),
            id, request, "The hearing is noted.", nameof(Hearing), () => Hearing = hearing, stop);

    public async Task<IActionResult> OnPostStatementAsync(int id, int request, [Bind(Prefix = nameof(Statement))] AddStatement.Input statement, CancellationToken stop) =>
        await AnswerAsync(await turns.Statement.RunAsync(caller.Value, Operation, statement with { Learner = id, Request = request }, stop),
            id, request, "The statement stands beside the entry.", nameof(Statement), () => Statement = statement, stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, int request, string done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{id}/requests/{request}");
        }
        if (await OnGetAsync(id, request, stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
