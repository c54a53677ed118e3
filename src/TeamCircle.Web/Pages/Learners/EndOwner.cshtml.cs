using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Gives somebody who is named for a goal another last day, or takes it back.</summary>
public sealed class EndOwnerModel(CurrentCaller caller, ReadPlan read, EndOwner end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndOwner.Input Input { get; set; } = new();

    public NamedView Named { get; private set; } = null!;

    public string Code { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(int id, int owner, CancellationToken stop)
    {
        if (!await LoadAsync(id, owner, stop))
            return NotFound();
        (Input.Version, Input.LastDay) = (Named.Version, Named.ToDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int owner, CancellationToken stop)
    {
        if (!await LoadAsync(id, owner, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Owner) = (id, owner);
        var outcome = await end.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Named.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = Input.TakeBack ? "Taken back." : "Saved.";
        return Redirect($"/learners/{id}/plan");
    }

    private async Task<bool> LoadAsync(int id, int owner, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, stop) is not { } plan)
            return false;
        (Code, Named) = plan.Plans.SelectMany(p => p.Goals).SelectMany(g => g.Owners.Select(a => (g.Code, Named: a))).FirstOrDefault(n => n.Named.Id == owner);
        return Named is not null;
    }
}
