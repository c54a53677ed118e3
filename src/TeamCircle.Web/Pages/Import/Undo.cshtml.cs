using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Import;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Import;

/// <summary>Undoes one import, after its administrator has seen what it brought.</summary>
public sealed class UndoModel(CurrentCaller caller, ReadImports read, UndoImport undo) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public UndoImport.Input Input { get; set; } = new();

    /// <summary>Rows stored that are undone in a second: 24,200, with the 30,000 that hang on them, took 8 seconds.</summary>
    private const int RowsASecond = 3_000;

    public PastImport Import { get; private set; } = null!;

    /// <summary>About how long it takes.</summary>
    public int Seconds => Import.Stored / RowsASecond;

    public async Task<IActionResult> OnGetAsync(int import, CancellationToken stop) =>
        await LoadAsync(import, stop) ? Page() : Redirect("/settings/import");

    public async Task<IActionResult> OnPostAsync(int import, CancellationToken stop)
    {
        // Whoever leaves the page does not stop it: it is done whole, and the list of imports says so.
        var outcome = await undo.RunAsync(caller.Value, Operation, Input with { Import = import }, CancellationToken.None);
        if (outcome.Value is { } undone)
        {
            TempData["Done"] = $"The import is undone: {Say.Count(undone.Rows, "row")} removed or put back.";
            return Redirect("/settings/import");
        }
        return await LoadAsync(import, stop) ? this.Refuse(outcome.Problems) : NotFound();
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Import = (await read.RunAsync(caller.Scope, stop)).SingleOrDefault(i => i.Id == id && i.UndoneOn is null)!;
        return Import is not null;
    }
}
