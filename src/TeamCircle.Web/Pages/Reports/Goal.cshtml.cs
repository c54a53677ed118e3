using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>One goal of a report: one's own paragraph, those of the others, and the one that joins them.</summary>
public sealed class GoalModel(CurrentCaller caller, ReadReport read, WritePart write, JoinGoal join) : PageModel
{
    public sealed record Form
    {
        public int Version { get; init; }
        public ReportStatus? Status { get; init; }
        public string? Reason { get; init; }
        public string? Words { get; init; }
    }

    public sealed record PartForm
    {
        public int? Version { get; init; }
        public string? Words { get; init; }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public Form Input { get; private set; } = new();

    public PartForm Own { get; private set; } = new();

    public ReportPage Report { get; private set; } = null!;

    public ReportGoal Goal { get; private set; } = null!;

    public bool IsOwn { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return Report is null ? NotFound() : Redirect($"/reports/{id}"); // what can no longer be written can still be read
        // What the owners wrote stands in the field to begin with: joining is mending, not typing again.
        var words = Goal.Said.Words ?? string.Join("\n\n", Goal.Parts.Select(p => p.Words));
        Input = new() { Version = Goal.Version, Status = Goal.Said.Status, Reason = Goal.Said.Reason, Words = words };
        Own = Goal.Parts.Where(p => p.IsOwn).Select(p => new PartForm { Version = p.Version, Words = p.Words }).FirstOrDefault() ?? new();
        return Page();
    }

    public async Task<IActionResult> OnPostPartAsync(int id, int goal, [Bind(Prefix = nameof(Own))] PartForm own, CancellationToken stop)
    {
        var outcome = await write.RunAsync(caller.Value, Operation, new() { Report = id, Goal = goal, Words = own.Words, Version = own.Version }, stop);
        return await AnswerAsync(id, goal, outcome, "Your paragraph is saved.", $"/reports/{id}/goals/{goal}", nameof(Own), () => Own = own, stop);
    }

    public async Task<IActionResult> OnPostJoinAsync(int id, int goal, [Bind(Prefix = nameof(Input))] Form input, CancellationToken stop)
    {
        var outcome = await join.RunAsync(
            caller.Value, Operation, new() { Report = id, Goal = goal, Version = input.Version, Status = input.Status, Reason = input.Reason, Words = input.Words }, stop);
        return await AnswerAsync(id, goal, outcome, "It stands in the report.", $"/reports/{id}#goal-{goal}", nameof(Input), () => Input = input, stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(int id, int goal, Outcome<T> outcome, string done, string next, string prefix, Action keep, CancellationToken stop)
        where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect(next);
        }
        if (await OnGetAsync(id, goal, stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }

    private async Task<bool> LoadAsync(int id, int goal, CancellationToken stop)
    {
        Report = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        if (Report is not { State: ReportState.Open } || Report.Goal(goal) is not { MayWrite: true } found)
            return false;
        Goal = found;
        IsOwn = found.Parts.Any(p => p.IsOwn);
        return true;
    }
}
