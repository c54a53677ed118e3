using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>Logs a visit that nobody had scheduled, also of several learners at once.</summary>
public sealed class LogNewModel(CurrentCaller caller, ReadServiceChoices read, LogSession log) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public LogSession.Input Input { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public int? Service { get; set; }

    /// <summary>Services of other learners in the same group.</summary>
    [BindProperty]
    public int[] Also { get; set; } = [];

    public ReadServiceChoices.Choices Choices { get; private set; } = null!;

    public SessionForm Form { get; private set; } = null!;

    public IReadOnlyList<SelectListItem> Services { get; private set; } = [];

    /// <summary>Who can have given it; null for all but case managers.</summary>
    public IReadOnlyList<SelectListItem>? Providers { get; private set; }

    /// <param name="pays">A day of the window that the visit makes up for, where the reader comes from that window.</param>
    /// <param name="award">The award of compensatory services that it is for, where the reader comes from it.</param>
    public async Task OnGetAsync(LocalDate? pays, int? award, CancellationToken stop)
    {
        Input = new() { OnDay = caller.Value.Today, PaysOn = pays, AwardId = award };
        await LoadAsync(stop);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        int[] services = Service is { } first ? [first, .. Also.Where(s => s != first)] : [.. Also];
        var outcome = ModelState.IsValid ? await log.RunAsync(caller.Value, Operation, Input with { Services = services }, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/visits/{saved.Visit}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        foreach (var problem in outcome?.Problems ?? [])
            ModelState.AddModelError(problem.Field switch { "" => "", nameof(Input.Services) => nameof(Service), var field => $"{nameof(Input)}.{field}" }, problem.Message);
        await LoadAsync(stop);
        return Page();
    }

    private async Task LoadAsync(CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, stop);
        var groups = Choices.Services.Select(s => s.LearnerId).Distinct()
            .ToDictionary(l => l, l => new SelectListGroup { Name = Choices.Services.First(s => s.LearnerId == l).Learner });
        Services =
        [
            new("Choose", ""),
            .. Choices.Services.Select(s => new SelectListItem(Say.Discipline(s.Discipline), s.Id.ToString(CultureInfo.InvariantCulture)) { Group = groups[s.LearnerId] }),
        ];
        var people = Choices.Team.DistinctBy(t => t.PersonId).Where(t => t.PersonId != caller.Value.PersonId).Select(t => new Colleague(t.PersonId, t.Name)).ToList();
        Form = new(null, false, true, null, Ui.Choices.People(people, "Nobody: given alone"), null) { Awards = SessionForm.AwardsOf(Choices.Awards) };
        Providers = caller.Value.Is(Core.People.Role.CaseManager) ? Ui.Choices.People(people, "Me") : null;
    }
}
