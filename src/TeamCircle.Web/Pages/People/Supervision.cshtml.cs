using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>How the assistants of a learner are supervised: how often, and what took place.</summary>
public sealed class SupervisionModel(CurrentCaller caller, ReadSupervision read, NoteObservation note, SetSupervision set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public NoteObservation.Input Input { get; set; } = new();

    [BindProperty]
    public SetSupervision.Input Every { get; set; } = new();

    public SupervisionPage Shown { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public bool Manages => caller.Value.Manages(Shown.Learner);

    /// <summary>Whether the reader notes supervision visits: as a full member of the team.</summary>
    public bool MayNote => caller.Value.IsMember(Shown.Learner);

    public bool MayTakeBack(ObservationShown visit) => Manages || visit.ObserverId == caller.Value.PersonId;

    public IReadOnlyList<SelectListItem> Assistants =>
        PlanChoices.People([.. Shown.Assistants.Where(a => a.PersonId != caller.Value.PersonId).Select(a => new NamedId(a.PersonId, a.Name))]);

    public static IReadOnlyList<SelectListItem> Units => [.. PlanChoices.Units.Where(u => u.Value is nameof(EveryUnit.Week) or nameof(EveryUnit.Month))];

    public Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        (Input.OnDay, Every.FromDay) = (Today, Today);
        return ShowAsync(id, stop);
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input.Learner = id;
        var outcome = await note.RunAsync(caller.Value, Operation, Input, stop);
        return outcome.Value is not null ? Done(id, "Noted.") : await AgainAsync(id, outcome.Problems, nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostEveryAsync(int id, CancellationToken stop)
    {
        Every.Learner = id;
        var outcome = await set.RunAsync(caller.Value, Operation, Every, stop);
        return outcome.Value is not null ? Done(id, "Saved.") : await AgainAsync(id, outcome.Problems, nameof(Every), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int observation, string? reason, [FromServices] TakeBackObservation takeBack, CancellationToken stop)
    {
        var outcome = await takeBack.RunAsync(caller.Value, Operation, new() { Learner = id, Observation = observation, Reason = reason }, stop);
        return outcome.Value is not null ? Done(id, "Taken back.") : await AgainAsync(id, outcome.Problems, "", stop);
    }

    private RedirectResult Done(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/learners/{id}/supervision");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Core.Problem> problems, string prefix, CancellationToken stop) =>
        await ShowAsync(id, stop) is PageResult ? this.Refuse(problems, prefix) : NotFound();

    private async Task<IActionResult> ShowAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is null ? NotFound() : Page();
    }
}
