using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>The learners on somebody's teams, with where each service and probe commitment stands.</summary>
public sealed class CaseloadModel(CurrentCaller caller, ReadCaseload caseload, ReadStandingLines standings, ReadForecasts forecasts) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Status? Status { get; set; }

    [BindProperty(SupportsGet = true)]
    public Discipline? Discipline { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Person { get; set; }

    /// <summary>A part of the name that is looked for; it is posted, for a name never stands in an address.</summary>
    public string? Name { get; private set; }

    public Caseload Caseload { get; private set; } = null!;

    public Standings Standings { get; private set; } = null!;

    public Forecasts Forecasts { get; private set; } = null!;

    public IReadOnlyList<CaseloadRow> Rows { get; private set; } = [];

    /// <summary>Services with nobody assigned today, whatever the filter.</summary>
    public IReadOnlyList<StandingLine> Unassigned { get; private set; } = [];

    public bool IsFiltered => Status is not null || Discipline is not null || Person is not null || Name is not null;

    public CaseloadChoices Choices => new(this);

    public async Task OnGetAsync(CancellationToken stop)
    {
        Caseload = await caseload.RunAsync(caller.Value, caller.Scope, stop);
        Standings = (await standings.RunAsync(caller.Scope, caller.Value.Today, null, stop)).SeenBy(caller.Value);
        Forecasts = await forecasts.RunAsync(caller.Scope, caller.Value.Today, [.. Caseload.Learners.Select(l => l.Id)], stop);
        Unassigned = [.. Standings.Lines.Where(l => l.IsUnassigned && !l.Line.IsProbes && Caseload.Learners.Any(c => c.Id == l.Line.LearnerId && !c.IsQuiet))];
        Rows = [.. Caseload.Learners.Select(l => new CaseloadRow(l, [.. Standings.Of(l.Id).Where(Passes)])).Where(r => !IsFiltered || r.Lines.Count > 0)];
    }

    public async Task OnPostFindAsync(string? name, CancellationToken stop)
    {
        await OnGetAsync(stop);
        if (string.IsNullOrWhiteSpace(name))
            return;
        Name = name.Trim();
        var found = await caseload.FindAsync(caller.Value, caller.Scope, Name, stop);
        Rows = [.. Rows.Where(r => found.Contains(r.Learner.Id))];
    }

    public bool MayTakeIn => caller.Value.Is(Role.CaseManager);

    public bool MayAssign(StandingLine standing) => caller.Value.Manages(standing.Line.LearnerId);

    private bool Passes(StandingLine standing) =>
        (Status is null || standing.Balance.Status == Status)
        && (Discipline is null || standing.Line.Service?.Discipline == Discipline)
        && (Person is not { } person || standing.Line.Named.Any(n => n.PersonId == person));
}

/// <summary>A learner with those of their lines that pass the filter.</summary>
public sealed record CaseloadRow(CaseloadLearner Learner, IReadOnlyList<StandingLine> Lines);
