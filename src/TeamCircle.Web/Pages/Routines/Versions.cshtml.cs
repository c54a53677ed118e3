using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>What differs between two versions of a routine's card.</summary>
public sealed class VersionsModel(CurrentCaller caller, ReadRoutine read) : PageModel
{
    /// <summary>Null, or none of the versions: the one before <see cref="After"/>.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Before { get; set; }

    /// <summary>Null, or none of the versions: the newest.</summary>
    [BindProperty(SupportsGet = true)]
    public int? After { get; set; }

    public bool IsReviewer => !caller.Value.IsStaff;

    /// <summary>The card; for an outside reviewer, who reads its versions only, the file.</summary>
    public string Back => IsReviewer ? $"/learners/{Shown.LearnerId}/review" : $"/routines/{Shown.Id}";

    public RoutinePage Shown { get; private set; } = null!;

    public IReadOnlyList<CardChange> Changes { get; private set; } = [];

    public IReadOnlyList<SelectListItem> Choices =>
        [.. Shown.Versions.Select(v => new SelectListItem($"{v.Number}: {v.By}, {Say.Date(v.On)}", $"{v.Number}"))];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, null, stop) is not { Versions.Count: > 0 } shown)
            return NotFound();
        Shown = shown;
        After = Find(After) ?? shown.Versions[0].Number;
        Before = Find(Before) ?? Math.Max(1, After.Value - 1);
        Changes = RoutineDifference.Between(Of(Before).Content, Of(After).Content, goal => CardView.Goal(shown, goal));
        return Page();
    }

    public VersionShown Of(int? number) => Shown.Versions.Single(v => v.Number == number);

    private int? Find(int? number) => Shown.Versions.Any(v => v.Number == number) ? number : null;
}
