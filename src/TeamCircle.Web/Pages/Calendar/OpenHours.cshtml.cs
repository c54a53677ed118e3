using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>When a learner can be visited, and which places are theirs.</summary>
public sealed class OpenHoursModel(CurrentCaller caller, ReadPlaces read, SetOpenHours set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetOpenHours.Input Input { get; set; } = new();

    public HoursPage Hours { get; private set; } = null!;

    public IReadOnlyList<SelectListItem> Offered =>
        [new("Not said", ""), .. Hours.Offered.Select(p => new SelectListItem($"{p.Name} ({p.Code})", p.Id.ToString(CultureInfo.InvariantCulture)))];

    public static IReadOnlyList<Place> Kinds { get; } = Enum.GetValues<Place>();

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Learner = id, Week = Hours.Week, Places = [.. Hours.Places] };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input.Learner = id;
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is null)
            return this.Refuse(outcome?.Problems ?? []);
        TempData["Done"] = "Hours and places are saved.";
        return Redirect($"/learners/{id}/hours");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Hours = (await read.OfLearnerAsync(caller.Scope, id, caller.Value.Today, stop))!;
        return Hours is not null;
    }
}
