using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Restates a closed count: takes in what devices sent too late, and seals another edition under a signature.</summary>
public sealed class RestateModel(CurrentCaller caller, ReadCount read, ReadSetAside asides, RestatePeriod restate) : PageModel
{
    public sealed record Form
    {
        public int Statement { get; init; }
        public string? Reason { get; init; }

        /// <summary>What is taken in, each as its number and version: 12-1.</summary>
        public string[] Take { get; init; } = [];
        public string? Credential { get; init; }
        public Dictionary<string, string?> Why { get; init; } = [];
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public CountPage Count { get; private set; } = null!;

    /// <summary>What devices sent about this learner and that waits.</summary>
    public IReadOnlyList<ListedAside> Asides { get; private set; } = [];

    /// <summary>What was logged on the days of the count, by service.</summary>
    public IReadOnlyList<IGrouping<string, CountVisit>> Visits { get; private set; } = [];

    public IEnumerable<ObstacleView> Obstacles => Count.Obstacles.Select(o => new ObstacleView(Count, o, Input.Why.GetValueOrDefault(o.Obstacle.Key)));

    public static string Choice(ListedAside aside) => FormattableString.Invariant($"{aside.Id}-{aside.Version}");

    public async Task<IActionResult> OnGetAsync(int id, int period, CancellationToken stop)
    {
        if (!await LoadAsync(id, period, stop))
            return NotFound();
        if (!Count.IsClosed || Count.Editions.Count == 0)
            return Redirect($"/learners/{id}/close/{period}");
        Input = new() { Statement = Count.Editions[0].Id, Credential = Count.Credential, Why = ClosingRules.Said(Count.Editions[0].Left) };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int period, CancellationToken stop)
    {
        var outcome = await restate.RunAsync(caller.Value, Operation, new()
        {
            Learner = id,
            Period = period,
            Statement = Input.Statement,
            Reason = Input.Reason,
            Asides = [.. Input.Take.Select(t => t.Split('-')).Where(t => t.Length == 2).Select(t => new RestatePeriod.Aside(Number(t[0]), Number(t[1])))],
            Credential = Input.Credential,
            Words = Input.Why,
        }, stop);
        if (outcome.Value is null)
            return await LoadAsync(id, period, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = $"The count is restated, as edition {Say.Number(outcome.Value.Edition)}. The one before it stays.";
        return Redirect($"/learners/{id}/close/{period}");
    }

    private static int Number(string text) => int.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out var number) ? number : 0;

    private async Task<bool> LoadAsync(int id, int period, CancellationToken stop)
    {
        Count = (await read.RunAsync(caller.Value, caller.Scope, id, period, stop))!;
        if (Count is null)
            return false;
        Asides = [.. (await asides.RunAsync(caller.Value, caller.Scope, stop)).Where(a => a.LearnerId == id)];
        var names = Count.Ledger.Lines.Where(l => !l.Line.IsProbes).ToDictionary(l => l.Line.Id, l => StandingWords.Name(l.Line));
        Visits = [.. (await read.VisitsAsync(caller.Value, caller.Scope, id, period, stop)).GroupBy(v => names.GetValueOrDefault(v.ServiceId, "Another service"))];
        return true;
    }
}
