using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>Sets how a person stands to a learner.</summary>
public sealed class AddMemberModel(CurrentCaller caller, ReadTeam read, AddTeamMember add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddTeamMember.Input Input { get; set; } = new();

    public TeamPage Shown { get; private set; } = null!;

    /// <summary>The relations that the caller writes.</summary>
    public IEnumerable<SelectListItem> Kinds => PlanChoices.Relations(kind => RelationRules.MayWrite(caller.Value, Input.Learner, kind));

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        (Input.Learner, Input.FromDay) = (id, caller.Value.Today);
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input.Learner = id;
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = "Saved. It holds from the first day on.";
        return Redirect($"/learners/{id}/team");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Scope, id, caller.Value.Today, stop))!;
        return Shown is not null;
    }
}
