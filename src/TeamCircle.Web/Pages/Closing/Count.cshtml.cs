using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Pages.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>One learner's count for one reporting period: what it comes to, what stands in the way, and the signature that closes it.</summary>
public sealed class CountModel(CurrentCaller caller, ReadCount read, ClosePeriod close) : PageModel
{
    public sealed record Form
    {
        public string? Mark { get; init; }
        public string? Credential { get; init; }

        /// <summary>By the obstacle's key.</summary>
        public Dictionary<string, string?> Why { get; init; } = [];
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public CountPage Count { get; private set; } = null!;

    public bool IsOver => Count.IsOver(caller.Value.Today);

    public bool MayClose => Count is { Manages: true, IsClosed: false } && IsOver;

    /// <summary>Each line with the windows of the period that lack something, or about which somebody decided.</summary>
    public IEnumerable<(LedgerView Line, IReadOnlyList<WindowView> Windows)> NotGiven => Count.Ledger.Lines
        .Select(l => new LedgerView(Count.Ledger.Names, l, caller.Value.OnTeam(Count.LearnerId), Count is { Manages: true, IsClosed: false }) { Period = Count.Period.Id })
        .Select(l => (l, Windows: (IReadOnlyList<WindowView>)[.. l.Windows.Take(l.Working.Closing.Count).Where(w => w.Lacks || w.Decisions.Any())]))
        .Where(l => l.Windows.Count > 0);

    /// <summary>The service or goal about which something was left standing; null for what is about the learner as a whole.</summary>
    public CommitmentLine? LineOf(LeftStanding left) => left is { Service: null, Goal: null } ? null
        : Count.Ledger.Lines.Select(l => l.Line).FirstOrDefault(l => l.Id == (left.Service ?? left.Goal) && l.IsProbes == left.Goal.HasValue);

    public IEnumerable<ObstacleView> Obstacles => Count.Obstacles.Select(o => new ObstacleView(Count, o, Input.Why.GetValueOrDefault(o.Obstacle.Key)));

    public async Task<IActionResult> OnGetAsync(int id, int period, CancellationToken stop)
    {
        if (!await LoadAsync(id, period, stop))
            return NotFound();
        Input = new() { Mark = Count.Mark, Credential = Count.Credential };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int period, CancellationToken stop)
    {
        var outcome = await close.RunAsync(caller.Value, Operation, new()
        {
            Learner = id,
            Period = period,
            Mark = Input.Mark,
            Credential = Input.Credential,
            Words = Input.Why,
        }, stop);
        if (outcome.Value is { } closed)
        {
            TempData["Done"] = closed.Edition == 1 ? "The count is closed." : $"The count is closed again, as edition {Say.Number(closed.Edition)}.";
            return Redirect($"/learners/{id}/close/{period}");
        }
        if (outcome.Problems.Contains(Problem.NotFound) || !await LoadAsync(id, period, stop))
            return NotFound();
        // What is shown again is what stands now: that is what the next signature is for.
        ModelState.Remove("Input.Mark");
        Input = Input with { Mark = Count.Mark };
        return this.Refuse(outcome.Problems);
    }

    private async Task<bool> LoadAsync(int id, int period, CancellationToken stop)
    {
        Count = (await read.RunAsync(caller.Value, caller.Scope, id, period, stop))!;
        return Count is not null;
    }
}
