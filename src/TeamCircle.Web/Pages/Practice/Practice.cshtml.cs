using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Pages.Devices;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>One practice with what it comes to; one touch adds it to a goal.</summary>
public sealed class PracticeModel(CurrentCaller caller, ReadPractice read, AddProbe add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public PracticePage Shown { get; private set; } = null!;

    public string? Skew => DeviceWords.Skew(Shown.SkewMs);

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } shown)
            return NotFound();
        Shown = shown;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, int goal, ProbeKind kind, CancellationToken stop)
    {
        if (await OnGetAsync(id, stop) is not PageResult page || Shown.Goals.FirstOrDefault(g => g.Figures.Goal == goal) is not { Offer: { } offer } found)
            return NotFound();
        if (kind == ProbeKind.Probe && found.WhyNoProbe.Count > 0)
            return NotFound(); // no form offers it
        var conditions = Shown.Record.Conditions;
        var outcome = await add.RunAsync(caller.Value, Operation, new()
        {
            GoalId = goal,
            OnDay = Shown.Started.Date,
            Value = offer.Value,
            Opportunities = offer.Opportunities,
            Kind = kind,
            ProviderId = Shown.ProviderId,
            PracticeId = id,
            State = conditions.State.Start,
            Position = conditions.Position,
            Side = conditions.Side,
            Place = Shown.Card.Place is { } place ? Words.Of(place) : null,
        }, stop);
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = SavedWords.Of(saved);
            return Redirect($"/practices/{id}");
        }
        ModelState.AddProblems([.. outcome.Problems.Select(p => p with { Field = "" })], "");
        return page;
    }

    public string WordsOf(string step) => Shown.Card.Steps.First(s => s.Key == step).Words;

    public StepDone? DoneOf(string step) => Shown.Record.Steps.FirstOrDefault(s => s.Step == step);
}
