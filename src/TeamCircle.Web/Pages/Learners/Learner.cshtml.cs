using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Quiet;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>A learner's one page: how we teach, the plan, services, goals, team and next visits.</summary>
public sealed class LearnerModel(CurrentCaller caller, ReadLearner read, ReadStandingLines standings, ReadSinceMyVisit sinceMyVisit) : PageModel
{
    public LearnerPage Learner { get; private set; } = null!;

    public Standings Standings { get; private set; } = null!;

    /// <summary>Null where the reader has logged no visit with the learner.</summary>
    public SinceMyVisit? Since { get; private set; }

    /// <summary>The headings of goals that run in the reporting period and of which nobody has taken a probe in it so far.</summary>
    public IReadOnlyList<string> Unprobed => Standings.Period is not { } period ? [] : [.. Learner.Goals
        .Where(g => g.From <= LocalDate.Min(Today, period.EndDay) && g.To >= period.StartDay && !g.IsProbed(period.StartDay, period.EndDay)).Select(g => g.Area)];

    public LocalDate Today => caller.Value.Today;

    public bool Manages => caller.Value.Manages(Learner.Id);

    /// <summary>On the team in full: neither for some days nor as an assistant.</summary>
    public bool IsMember => caller.Value.IsMember(Learner.Id);

    public bool MayReadAccess => Manages || caller.Value.Is(Role.Administrator);

    public bool MaySetQuiet => QuietRules.MaySet(caller.Value, Learner.Id);

    public bool MayReadFacts => Manages || caller.Value.Is(Role.Administrator) || caller.Value.Is(Role.Director);

    public bool MaySetHold => HoldRules.MaySet(caller.Value, Learner.Id);

    /// <summary>All services together: what is still to plan, and the learner's days that are left; null where no service takes them.</summary>
    public (int ToPlan, int Left)? Space
    {
        get
        {
            var own = Standings.Lines.Where(l => l.Line.TakesLearnersTime).Select(l => l.Balance).ToList();
            return own.Count == 0 ? null : (own.Sum(b => b.Minutes.StillToPlan), own.Max(b => b.SpaceLeft ?? 0));
        }
    }

    public IEnumerable<PartShown> Parts(params TeachPart[] parts) => parts.Select(p => Learner.Parts.Single(s => s.Part == p));

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } learner)
            return NotFound();
        Learner = learner;
        Standings = (await standings.RunAsync(caller.Scope, Today, id, stop)).SeenBy(caller.Value);
        Since = await sinceMyVisit.RunAsync(caller.Value, caller.Scope, id, stop);
        return Page();
    }
}
