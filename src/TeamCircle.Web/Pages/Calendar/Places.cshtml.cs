using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The agency's places, and how long the ways between them take.</summary>
public sealed class PlacesModel(CurrentCaller caller, ReadPlaces read, PlaceTurns turns) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SavePlace.Input Input { get; set; } = new();

    [BindProperty]
    public SetTravelTimes.Input Travel { get; set; } = new();

    [BindProperty]
    public SetDistanceUnit.Input Distances { get; set; } = new();

    public PlacesPage Shown { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken stop)
    {
        await LoadAsync(stop);
        Travel = new() { Ways = [.. Pairs()] };
        Distances = new() { Unit = Shown.Unit };
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await turns.Save.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is not null)
            return Done(Input.Remove ? "Taken out." : "Saved.");
        await LoadAsync(stop);
        Travel = new() { Ways = [.. Pairs()] };
        return this.Refuse(outcome?.Problems ?? []);
    }

    public async Task<IActionResult> OnPostTravelAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await turns.Travel.RunAsync(caller.Value, Operation, Travel, stop) : null;
        if (outcome?.Value is not null)
            return Done("Saved.");
        await LoadAsync(stop);
        return this.Refuse(outcome?.Problems ?? [], nameof(Travel));
    }

    public async Task<IActionResult> OnPostUnitAsync(CancellationToken stop)
    {
        var outcome = await turns.Unit.RunAsync(caller.Value, Operation, Distances, stop);
        if (outcome.Value is not null)
            return Done("Saved.");
        await LoadAsync(stop);
        Travel = new() { Ways = [.. Pairs()] };
        return this.Refuse(outcome.Problems, nameof(Distances));
    }

    /// <summary>A place's code, by its number.</summary>
    public string Code(int place) => Shown.Places.FirstOrDefault(p => p.Id == place)?.Code ?? "";

    private RedirectResult Done(string words)
    {
        TempData["Done"] = words;
        return Redirect("/settings/places");
    }

    private async Task LoadAsync(CancellationToken stop) => Shown = await read.RunAsync(caller.Scope, stop);

    private IEnumerable<SetTravelTimes.Way> Pairs() =>
        from first in Shown.Places
        from second in Shown.Places
        where string.CompareOrdinal(first.Code, second.Code) < 0
        select PairOf(first.Id, second.Id);

    // A time known in one direction only holds in both: it stands in the first column, whichever direction it was entered for.
    private SetTravelTimes.Way PairOf(int first, int second) => Known(first, second) is { } there
        ? new() { From = first, To = second, Minutes = there, Back = Known(second, first), Distance = Far(first, second) }
        : new() { From = first, To = second, Minutes = Known(second, first), Distance = Far(second, first) };

    private decimal? Far(int from, int to) => Shown.Tenths.TryGetValue((from, to), out var tenths) ? tenths / 10m : null;

    private int? Known(int from, int to) => Shown.Minutes.TryGetValue((from, to), out var minutes) ? minutes : null;
}
