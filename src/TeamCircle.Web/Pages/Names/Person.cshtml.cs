using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Names;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Names;

/// <summary>Changes a person's name from a day on.</summary>
public sealed class PersonModel(CurrentCaller caller, ReadNames read, RenamePerson rename) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public RenamePerson.Input Input { get; set; } = new();

    public NamesPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Version = Shown.Version, FromDay = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await rename.RunAsync(caller.Value, Operation, Input with { Person = id }, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = "Saved.";
            return Redirect($"/settings/people/{id}");
        }
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (outcome.Problems.AreOvertaken())
            Input = Input with { Version = Shown.Version };
        return this.Refuse(outcome.Problems);
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.OfPersonAsync(caller.Scope, id, stop))!;
        return Shown is not null;
    }
}
