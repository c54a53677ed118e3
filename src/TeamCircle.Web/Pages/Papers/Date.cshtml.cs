using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>One day that binds: done, moved, or taken back. Whoever comes too late is led to the list.</summary>
public sealed class DateModel(CurrentCaller caller, ReadDates read, DoBoundDate doing, MoveBoundDate moving) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public DoBoundDate.Input Done { get; private set; } = new();

    public MoveBoundDate.Input Move { get; private set; } = new();

    public MoveBoundDate.Input TakeBack { get; private set; } = new();

    public OpenDate Open { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public async Task<IActionResult> OnGetAsync(int id, int date, CancellationToken stop)
    {
        if (await read.OneAsync(caller.Value, caller.Scope, id, date, stop) is not { } open)
            return Redirect($"/learners/{id}/dates");
        Open = open;
        Done = new() { DoneOn = Today };
        Move = new() { DueOn = open.Date.Due };
        return Page();
    }

    public async Task<IActionResult> OnPostDoneAsync(int id, int date, [Bind(Prefix = nameof(Done))] DoBoundDate.Input done, CancellationToken stop)
    {
        var outcome = await doing.RunAsync(caller.Value, Operation, done with { Learner = id, BoundDate = date }, stop);
        var words = outcome.Value?.Next is { } next ? $"It is done, and comes round again by {Say.Date(next)}." : "It is done.";
        return await AnswerAsync(outcome, id, date, words, nameof(Done), () => Done = done, stop);
    }

    public async Task<IActionResult> OnPostMoveAsync(int id, int date, [Bind(Prefix = nameof(Move))] MoveBoundDate.Input move, CancellationToken stop) => await AnswerAsync(
        await moving.RunAsync(caller.Value, Operation, move with { Learner = id, BoundDate = date, TakeBack = false }, stop), id, date, "It has another day now.", nameof(Move), () => Move = move, stop);

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int date, [Bind(Prefix = nameof(TakeBack))] MoveBoundDate.Input takeBack, CancellationToken stop) => await AnswerAsync(
        await moving.RunAsync(caller.Value, Operation, takeBack with { Learner = id, BoundDate = date, TakeBack = true }, stop), id, date, "It is taken back.", nameof(TakeBack), () => TakeBack = takeBack, stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, int date, string done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{id}/dates");
        }
        if (outcome.Problems.Contains(Problem.NotFound) || await OnGetAsync(id, date, stop) is not PageResult)
            return outcome.Problems.Contains(Problem.NotFound) ? NotFound() : Redirect($"/learners/{id}/dates");
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
