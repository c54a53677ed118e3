using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>When a learner is away, and what it does to the visits.</summary>
public sealed class AwayModel(CurrentCaller caller, ReadAways read, AddAway add, EndAway end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddAway.Input Input { get; set; } = new();

    [BindProperty]
    public EndAway.Input Ending { get; set; } = new();

    public AwayPage Away { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Input = new() { FromDay = Today };
        return await ShowAsync(id, stop);
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        foreach (var key in ModelState.Keys.Where(k => k.StartsWith(nameof(Ending), StringComparison.Ordinal)).ToList())
            ModelState.Remove(key);
        var outcome = ModelState.IsValid ? await add.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        return outcome?.Value is { } saved ? Done(id, $"Entered. {SeriesWords.Of(saved.Effect)}") : await AgainAsync(id, outcome?.Problems ?? [], nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostEndAsync(int id, CancellationToken stop)
    {
        foreach (var key in ModelState.Keys.Where(k => k.StartsWith(nameof(Input), StringComparison.Ordinal)).ToList())
            ModelState.Remove(key);
        var outcome = ModelState.IsValid ? await end.RunAsync(caller.Value, Operation, Ending with { Learner = id }, stop) : null;
        return outcome?.Value is { } saved ? Done(id, $"Saved. {SeriesWords.Of(saved.Effect)}") : await AgainAsync(id, outcome?.Problems ?? [], nameof(Ending), stop);
    }

    private RedirectResult Done(int id, string words)
    {
        TempData["Done"] = words.TrimEnd();
        return Redirect($"/learners/{id}/away");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, string prefix, CancellationToken stop) =>
        await ShowAsync(id, stop) is PageResult ? this.Refuse(problems, prefix) : NotFound();

    private async Task<IActionResult> ShowAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, caller.Value, id, stop) is not { } away)
            return NotFound();
        Away = away;
        return Page();
    }
}
