using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Family;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Family;

/// <summary>The family's page of facts: who comes and who does not, what was given, where we are with the minutes, whom to ask.</summary>
public sealed class FactsModel(CurrentCaller caller, ReadFamilyFacts read, ReadStandingLines standings) : PageModel
{
    public FamilyFacts Facts { get; private set; } = null!;

    public Standings Standings { get; private set; } = null!;

    public FamilySentences Words { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public bool IsTeam => caller.Value.OnTeam(Facts.LearnerId);

    public bool IsFamily => caller.Value.IsFamilyOf(Facts.LearnerId);

    public IEnumerable<StandingLine> Services => Standings.Lines.Where(l => !l.Line.IsProbes);

    /// <summary>The decisions that count in the reporting period shown.</summary>
    public IEnumerable<FamilyDecision> NotOwed(StandingLine standing) => Facts.NotOwed.Where(d =>
        d.ServiceId == standing.Line.Id && standing.Working.Closing.Any(w => w.Window.Days.Holds(Day.Of(d.On))));

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } facts)
            return NotFound();
        Facts = facts;
        Words = new(FamilyLanguage.Of(HttpContext), facts.Child.Split(' ')[0], facts.CaseManager?.Name);
        Standings = await standings.RunAsync(caller.Scope, Today, id, stop);
        return Page();
    }
}
