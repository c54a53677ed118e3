using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>The meetings of a learner for which packs were made, and a form for another.</summary>
public sealed class PacksModel(CurrentCaller caller, ReadPacks read, MakePack make) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public MakePack.Input Input { get; set; } = new();

    public PacksPage Packs { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await make.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        if (outcome?.Value is not { } made)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = "The pack is made. Read it before it goes out.";
        return Redirect($"/learners/{id}/meeting-pack/{made.Meeting}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Packs = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Packs is not null;
    }
}
