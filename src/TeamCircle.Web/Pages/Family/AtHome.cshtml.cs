using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>Somebody of the family says with one tap how it was at home, where they are let, and sees what they tapped themselves. Nothing here counts or judges.</summary>
public sealed class AtHomeModel(CurrentCaller caller, ReadHomeTaps read, TapAtHome tap, UndoHomeTap undo) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TapAtHome.Input Input { get; set; } = new();

    [BindProperty]
    public UndoHomeTap.Input Back { get; set; } = new();

    public HomeTapsPage Shown { get; private set; } = null!;

    public FamilySentences Words { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await tap.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop);
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (outcome.Value is { } saved && Shown.Taps.FirstOrDefault(t => t.Id == saved.Tap) is { } said)
            TempData["Done"] = Words.Say(FamilyGlossary.HomeSaved, said.Routine, Words.Say(SummaryWords.ToFamily(said.Answer)));
        return Redirect($"/family/{id}/at-home"); // what cannot be tapped any more is gone from the page
    }

    public async Task<IActionResult> OnPostUndoAsync(int id, CancellationToken stop)
    {
        var outcome = await undo.RunAsync(caller.Value, Operation, Back with { Learner = id }, stop);
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (outcome.Value is not null)
            TempData["Done"] = Words.Say(FamilyGlossary.HomeUndone);
        return Redirect($"/family/{id}/at-home");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        if (Shown is null)
            return false;
        Words = new(FamilyLanguage.Of(HttpContext), Shown.Child.Split(' ')[0], null);
        return true;
    }
}
