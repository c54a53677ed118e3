using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Schedules a visit, or visits that recur.</summary>
public sealed class NewModel(CurrentCaller caller, ReadPlanning read, ScheduleVisit visit, ScheduleSeries series) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty(SupportsGet = true)]
    public VisitForm Input { get; set; } = new();

    public PlanningChoices Choices { get; private set; } = null!;

    public ScheduleChoices Offered => new(Choices, caller.Value);

    /// <summary>Whether a problem asks for one of the ticks, so that it is shown.</summary>
    public bool Asks(string field) => ModelState.TryGetValue($"{nameof(Input)}.{field}", out var entry) && entry.Errors.Count > 0;

    /// <param name="service">What the form begins with, from the page that leads here.</param>
    /// <param name="learner">Without a service: the reader's own first one with this learner, if there is any.</param>
    /// <param name="start">From an empty place on the calendar.</param>
    /// <param name="pays">For a make-up: a day of the window that it pays.</param>
    /// <param name="award">The award of compensatory services that it is for.</param>
    public async Task<IActionResult> OnGetAsync(int? service, int? learner, LocalDate? day, LocalTime? start, LocalDate? pays, int? award, CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, stop);
        ModelState.Clear();
        service ??= Choices.Services.FirstOrDefault(s => s.LearnerId == learner && s.IsMine)?.Id;
        Input = new() { What = service is { } id ? $"service:{id}" : null, OnDay = day, Start = start, PaysOn = pays, AwardId = award, Minutes = 30 };
        return Page();
    }

    /// <summary>What stands against the visit as it is being filled in; a part of the page, and nothing is written.</summary>
    public async Task<IActionResult> OnGetClashesAsync(CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, stop);
        var look = Input.Often == Often.Once
            ? ScheduleLook.Of(await visit.ClashesAsync(caller.Value, Input.Single(Choices), stop))
            : ScheduleLook.Of(Input.Series(Choices), await series.LookAsync(caller.Value, Input.Series(Choices), stop));
        return Partial("_Clashes", look);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, stop);
        if (!ModelState.IsValid)
            return Page();
        return Input.Often == Often.Once ? await SingleAsync(stop) : await SeriesAsync(stop);
    }

    private async Task<IActionResult> SingleAsync(CancellationToken stop)
    {
        var outcome = await visit.RunAsync(caller.Value, Operation, Input.Single(Choices), stop);
        if (outcome.Value is not { } saved)
            return Again(outcome.Problems);
        TempData["Done"] = $"Scheduled for {Say.NearDay(saved.OnDay, caller.Value.Today)}.";
        return Redirect($"/visits/{saved.Visit}");
    }

    private async Task<IActionResult> SeriesAsync(CancellationToken stop)
    {
        var outcome = await series.RunAsync(caller.Value, Operation, Input.Series(Choices), stop);
        if (outcome.Value is not { } saved)
            return Again(outcome.Problems);
        TempData["Done"] = SeriesWords.Saved(saved);
        return Redirect(saved.First is { } first ? $"/visits/{first}" : "/");
    }

    private IActionResult Again(IReadOnlyList<Problem> problems) =>
        this.Refuse([.. problems.Select(p => p with { Field = VisitForm.FieldOf(p.Field) })]);
}
