using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>What earlier reporting periods brought forward for a learner, and awards of compensatory services, each with its own account.</summary>
public sealed class BroughtForwardModel(CurrentCaller caller, ReadBroughtForward read) : PageModel
{
    public BroughtForwardPage BroughtForward { get; private set; } = null!;

    public bool Manages => caller.Value.IsStaff && caller.Value.Manages(BroughtForward.Learner);

    /// <summary>Visits open, and notes are read, by the learner's team only.</summary>
    public bool IsOnTeam => caller.Value.OnTeam(BroughtForward.Learner);

    public IEnumerable<DebtView> Open => Debts.Where(d => !d.Standing.Open.IsNothing);

    public IEnumerable<DebtView> Settled => Debts.Where(d => d.Standing.Open.IsNothing);

    public IEnumerable<AwardView> Awards => BroughtForward.Awards.Select(a => new AwardView(BroughtForward, a, IsOnTeam, Manages));

    private IEnumerable<DebtView> Debts => BroughtForward.Debts.Select(d => new DebtView(BroughtForward, d, IsOnTeam, Manages));

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, stop) is not { } page)
            return NotFound();
        BroughtForward = page;
        return Page();
    }
}
