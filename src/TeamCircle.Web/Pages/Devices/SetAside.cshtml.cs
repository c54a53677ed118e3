using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Devices;

/// <summary>What devices sent and the portal could not accept: entered after all, or closed with a reason.</summary>
public sealed class SetAsideModel(CurrentCaller caller, ReadSetAside read, EnterSetAside enter, CloseSetAside close) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public CloseSetAside.Input Closed { get; private set; } = new();

    public IReadOnlyList<ListedAside> Waiting { get; private set; } = [];

    /// <summary>The one that was to be entered or closed and could not be; null on a fresh page.</summary>
    public int? Tried { get; private set; }

    /// <summary>Whether that is so because a hold lay on it.</summary>
    public bool IsHeld { get; private set; }

    public string? UnderHold { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Waiting = await read.RunAsync(caller.Value, caller.Scope, stop);

    public async Task<IActionResult> OnPostEnterAsync([Bind(Prefix = "Entered")] EnterSetAside.Input entered, CancellationToken stop)
    {
        UnderHold = entered.UnderHold;
        return await AnswerAsync(await enter.RunAsync(caller.Value, Operation, entered, stop), entered.Id, "It is entered.", stop);
    }

    public async Task<IActionResult> OnPostCloseAsync([Bind(Prefix = "Closed")] CloseSetAside.Input closed, CancellationToken stop)
    {
        Closed = closed;
        return ModelState.IsValid
            ? await AnswerAsync(await close.RunAsync(caller.Value, Operation, closed, stop), closed.Id, "It is closed. What was typed stays on record.", stop)
            : await AgainAsync(closed.Id, [], stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, string done, CancellationToken stop) where T : class
    {
        if (outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        if (outcome.Value is null)
            return await AgainAsync(id, outcome.Problems, stop);
        TempData["Done"] = done;
        return Redirect("/set-aside");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, CancellationToken stop)
    {
        (Tried, IsHeld) = (id, problems.Any(p => p.Field == RecordPractice.HoldField));
        ModelState.AddProblems([.. problems.Select(p => p with { Field = "" })], "");
        await OnGetAsync(stop);
        return Page();
    }
}
