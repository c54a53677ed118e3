using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Opening a closed count again: the case manager asks with a reason, a director answers with another.</summary>
public sealed class ReopenModel(CurrentCaller caller, ReadCount read, AskToReopen ask, AnswerReopening answer) : PageModel
{
    public sealed record Form
    {
        public string? Reason { get; init; }
        public int Version { get; init; }
        public bool? Grant { get; init; }
        public string? Answer { get; init; }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public CountPage Count { get; private set; } = null!;

    public bool MayAsk => Count is { IsClosed: true, Manages: true, Reopening: null or { Granted: not null } };

    public bool MayAnswer => Count is { IsClosed: true, Reopening.Granted: null } && Count.Reopening is not null && caller.Value.Is(Role.Director);

    public async Task<IActionResult> OnGetAsync(int id, int period, CancellationToken stop)
    {
        if (!await LoadAsync(id, period, stop))
            return NotFound();
        Input = new() { Version = Count.Reopening?.Version ?? 0 };
        return MayAsk || Count.Reopening is { Granted: null } ? Page() : Redirect($"/learners/{id}/close/{period}");
    }

    public async Task<IActionResult> OnPostAsync(int id, int period, CancellationToken stop) => await ThenAsync(
        await ask.RunAsync(caller.Value, Operation, new() { Learner = id, Period = period, Reason = Input.Reason }, stop),
        _ => "You have asked. The count stays closed until a director has answered.", id, period, stop);

    public async Task<IActionResult> OnPostAnswerAsync(int id, int period, CancellationToken stop) => await ThenAsync(
        await answer.RunAsync(caller.Value, Operation, new() { Learner = id, Period = period, Version = Input.Version, Grant = Input.Grant, Answer = Input.Answer }, stop),
        answered => answered.Granted ? "The count is open again. Its case manager closes it once it is right." : "The count stays closed.", id, period, stop);

    private async Task<IActionResult> ThenAsync<T>(Outcome<T> outcome, Func<T, string> done, int id, int period, CancellationToken stop) where T : class
    {
        if (outcome.Value is null)
            return await LoadAsync(id, period, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = done(outcome.Value);
        return Redirect($"/learners/{id}/close/{period}");
    }

    private async Task<bool> LoadAsync(int id, int period, CancellationToken stop)
    {
        Count = (await read.RunAsync(caller.Value, caller.Scope, id, period, stop))!;
        return Count is not null;
    }
}
