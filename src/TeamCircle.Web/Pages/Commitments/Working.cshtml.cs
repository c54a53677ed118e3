using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Time;
using TeamCircle.Data;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.MakeUps;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>How one service was worked out in a reporting period.</summary>
public sealed class WorkingModel(CurrentCaller caller, ReadLedger read, ReadForecasts forecasts) : PageModel
{
    public LedgerPage Ledger { get; private set; } = null!;

    public IEnumerable<LedgerView> Lines => Ledger.Lines.Select(l =>
        new LedgerView(Ledger.Names, l, caller.Value.OnTeam(l.Line.LearnerId), caller.Value.Manages(l.Line.LearnerId))
        {
            Period = Ledger.Period.Id,
            Forecast = Forecasts.Of(l.Line, l.Working),
            MayPlanVisits = Ledger.AsOf == caller.Value.Today
                && MakeUpFacts.MayPlan(caller.Value, l.Line.LearnerId, l.Line.IsNamed(caller.Value.PersonId, Day.Of(Ledger.AsOf)) ? caller.Value.PersonId : 0),
        });

    private Forecasts Forecasts { get; set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int? period, LocalDate? asOf, CancellationToken stop)
    {
        if (await read.ServiceAsync(caller.Scope, id, period, asOf ?? caller.Value.Today, stop) is not { } ledger)
            return NotFound();
        // An assistant sees the minutes of the services that are theirs.
        if (caller.Scope.Wall == Wall.Person && !ledger.Lines.Any(l => caller.Value.IsMember(l.Line.LearnerId) || l.Line.IsNamed(caller.Value.PersonId, Day.Of(caller.Value.Today))))
            return NotFound();
        Ledger = ledger;
        Forecasts = await forecasts.RunAsync(caller.Scope, ledger.AsOf, [ledger.Lines[0].Line.LearnerId], stop);
        return Page();
    }
}
