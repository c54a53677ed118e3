using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>The named partner confirms a co-treatment with a session of their own.</summary>
public sealed class ConfirmModel(CurrentCaller caller, ReadVisit read, ReadServiceChoices choices, ConfirmTogether confirm) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ConfirmTogether.Input Input { get; set; } = new();

    public DeclineTogether.Input Decline { get; private set; } = new();

    public VisitPage Visit { get; private set; } = null!;

    public SessionOnRecord Session { get; private set; } = null!;

    /// <summary>The caller's services for this learner that provide for co-treatment, their own first.</summary>
    public IReadOnlyList<SelectListItem> Services { get; private set; } = [];

    public IReadOnlyList<SelectListItem> Leads => [new("I did", bool.TrueString), new(Session.Provider.Name, bool.FalseString)];

    public LocalDate Today => caller.Value.Today;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (Session.IsConfirmed)
            return Redirect($"/visits/{Visit.Id}");
        Input = new()
        {
            ServiceId = Services.Count > 1 ? int.Parse(Services[1].Value, CultureInfo.InvariantCulture) : 0,
            Start = Say.Time(Session.Start),
            End = Say.Time(Session.End),
            Led = !Session.Led,
        };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await confirm.RunAsync(caller.Value, Operation, Input with { Session = id }, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/visits/{saved.Visit}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true || !await LoadAsync(id, stop))
            return NotFound();
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Input));
        return Page();
    }

    public async Task<IActionResult> OnPostDeclineAsync(
        Guid id, [FromServices] DeclineTogether decline, [Bind(Prefix = nameof(Decline))] DeclineTogether.Input typed, CancellationToken stop)
    {
        (Decline, Input) = (typed, new());
        var outcome = ModelState.IsValid ? await decline.RunAsync(caller.Value, Operation, typed with { Session = id }, stop) : null;
        if (outcome?.Value is { } declined)
        {
            TempData["Done"] = "Saved. Your colleague reads it and corrects the visit.";
            return Redirect($"/visits/{declined.Visit}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true || !await LoadAsync(id, stop))
            return NotFound();
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Decline));
        return Page();
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken stop)
    {
        var visit = await read.OfSessionAsync(caller.Scope, caller.Value, id, stop);
        if (visit?.Standing is not { } standing || standing.Id != id || standing.Partner?.Id != caller.Value.PersonId)
            return false;
        (Visit, Session) = (visit, standing);
        var own = (await choices.RunAsync(caller.Value, stop)).Services.Where(s =>
            s.LearnerId == visit.Service.LearnerId && s.Id != visit.Service.Id && s.CoTreatment != CoTreatment.None);
        Services = [new("Choose", ""), .. own.Select(s => new SelectListItem(Say.Discipline(s.Discipline), s.Id.ToString(CultureInfo.InvariantCulture)))];
        return true;
    }
}
