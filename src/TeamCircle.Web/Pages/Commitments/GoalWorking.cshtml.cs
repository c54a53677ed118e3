using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>How the probes of one goal were worked out in a reporting period, for each owner of whom they are asked.</summary>
public sealed class GoalWorkingModel(CurrentCaller caller, ReadLedger read) : PageModel
{
    public LedgerPage Ledger { get; private set; } = null!;

    public IEnumerable<LedgerView> Lines => Ledger.Lines.Select(l =>
        new LedgerView(Ledger.Names, l, caller.Value.OnTeam(l.Line.LearnerId), caller.Value.Manages(l.Line.LearnerId)) { Period = Ledger.Period.Id });

    public async Task<IActionResult> OnGetAsync(int id, int? period, LocalDate? asOf, CancellationToken stop)
    {
        if (await read.GoalAsync(caller.Scope, id, period, asOf ?? caller.Value.Today, stop) is not { } ledger)
            return NotFound();
        Ledger = ledger;
        return Page();
    }
}
