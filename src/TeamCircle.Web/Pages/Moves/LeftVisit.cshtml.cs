using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Data.Moves;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>Decides one visit to come that handing a learner over left behind.</summary>
public sealed class LeftVisitModel(CurrentCaller caller, ReadLeftVisit read, DecideLeftVisit decide) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public DecideLeftVisit.Input Input { get; private set; } = new();

    public LeftVisitPage Shown { get; private set; } = null!;

    public string Back => $"/learners/{Shown.Planned.Visit.LearnerId}/hand-over/{Shown.Planned.Visit.Provider.Id}";

    public IReadOnlyList<SelectListItem> Colleagues => Choices.People(Shown.Team.Select(t => new Colleague(t.Id, t.Name)), "Choose");

    /// <summary>Whether something stands against the visit that a person may confirm.</summary>
    public bool Asks => Input.Confirmed || (ModelState.TryGetValue("Input.Confirmed", out var entry) && entry.Errors.Count > 0);

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } page)
            return Redirect($"/visits/{id}");
        Shown = page;
        var visit = page.Planned.Visit;
        Input = new() { Version = visit.Version, To = page.Successor?.Id, OnDay = visit.OnDay, Start = visit.Start };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, [Bind(Prefix = nameof(Input))] DecideLeftVisit.Input input, CancellationToken stop) =>
        input.To is null ? await AnswerAsync(Outcome<DecideLeftVisit.Saved>.Refused("To", "Choose who gives it, or say below that nobody comes."), id, input, stop)
            : await AnswerAsync(await decide.RunAsync(caller.Value, Operation, input with { Visit = id }, stop), id, input, stop);

    public async Task<IActionResult> OnPostNobodyAsync(Guid id, [Bind(Prefix = nameof(Input))] DecideLeftVisit.Input input, CancellationToken stop) =>
        await AnswerAsync(await decide.RunAsync(caller.Value, Operation, new() { Visit = id, Version = input.Version }, stop), id, input, stop);

    private async Task<IActionResult> AnswerAsync(Outcome<DecideLeftVisit.Saved> outcome, Guid id, DecideLeftVisit.Input input, CancellationToken stop)
    {
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = MoveWords.Of(saved);
            return Redirect($"/learners/{saved.Learner}/hand-over/{saved.Person}");
        }
        if (outcome.Problems.Contains(Problem.NotFound) || await OnGetAsync(id, stop) is not PageResult)
            return NotFound();
        Input = input with { Version = Input.Version };
        return this.Refuse(outcome.Problems, nameof(Input));
    }
}
