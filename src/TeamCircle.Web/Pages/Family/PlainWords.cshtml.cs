using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>A goal in plain words for the family: an owner of the goal or the case manager writes them, the team reads them.</summary>
public sealed class PlainWordsModel(CurrentCaller caller, WritePlainWords write) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public WritePlainWords.Input Input { get; set; } = new();

    public WritePlainWords.Shown Goal { get; private set; } = null!;

    /// <summary>How hard the English is to read; null where there is none.</summary>
    public ReadingLevel? Level => string.IsNullOrWhiteSpace(Input.English) ? null : ReadingLevel.Of(Input.English);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = Goal.Input;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input = Input with { Goal = id };
        var outcome = await write.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = "The plain words are saved. The next summary takes them.";
        return Redirect($"/goals/{id}/plain");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Goal = (await write.ReadAsync(caller.Value, caller.Scope, id, stop))!;
        return Goal is not null;
    }
}
