using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Changes a visit of a series with all that follow, or all from today on.</summary>
public sealed class ChangeFollowingModel(CurrentCaller caller, ReadPlannedVisit read, ChangeFollowing following, ChangeAll all) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangeFollowing.Input Input { get; set; } = new();

    /// <summary>All from today on, not only this one and those that follow.</summary>
    [BindProperty]
    public bool All { get; set; }

    public PlannedVisitPage Planned { get; private set; } = null!;

    public SeriesFacts Series => Planned.Series!;

    public bool Asks(string field) => ModelState.TryGetValue($"Input.{field}", out var entry) && entry.Errors.Count > 0;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        if (!planned.MayChange || planned.Series is not { Live: true } series)
            return Redirect($"/visits/{id}");
        Planned = planned;
        Input = new()
        {
            Version = planned.Visit.Version,
            Start = series.Start,
            Minutes = series.Minutes,
            Place = series.Place,
            PlaceId = series.PlaceId,
            EndsOn = series.EndsOn,
            Cadence = series.Cadence is { } cadence ? CadenceInput.Of(cadence) : new() { Days = [planned.Visit.OnDay.DayOfWeek] },
        };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } planned)
            return NotFound();
        Planned = planned;
        if (planned.Series is null)
            return Redirect($"/visits/{id}");
        if (!ModelState.IsValid)
            return Page();
        var outcome = await RunAsync(Input with { Visit = id }, stop);
        if (outcome.Value is not { } saved)
        {
            Input = Input with { Version = planned.Visit.Version };
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = SeriesWords.Saved(saved);
        return Redirect($"/visits/{saved.First ?? id}");
    }

    private Task<Outcome<SeriesSaved>> RunAsync(ChangeFollowing.Input input, CancellationToken stop) => All
        ? all.RunAsync(caller.Value, Operation, new()
        {
            Visit = input.Visit,
            Version = input.Version,
            Start = input.Start,
            Minutes = input.Minutes,
            Place = input.Place,
            PlaceId = input.PlaceId,
            Cadence = input.Cadence,
            EndsOn = input.EndsOn,
            LeaveOut = input.LeaveOut,
            Confirmed = input.Confirmed,
        }, stop)
        : following.RunAsync(caller.Value, Operation, input, stop);
}
