using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>Gives a relation to a learner another last day, or takes it back.</summary>
public sealed class EndMemberModel(CurrentCaller caller, ReadTeam read, EndTeamMember end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndTeamMember.Input Input { get; set; } = new();

    public TeamMember Member { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int relation, CancellationToken stop)
    {
        if (!await LoadAsync(id, relation, stop))
            return NotFound();
        (Input.Version, Input.LastDay) = (Member.Version, Member.ToDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int relation, CancellationToken stop)
    {
        if (!await LoadAsync(id, relation, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Relation) = (id, relation);
        var outcome = await end.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Member.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = Input.TakeBack ? "Taken back." : "Saved.";
        return Redirect($"/learners/{id}/team");
    }

    private async Task<bool> LoadAsync(int id, int relation, CancellationToken stop)
    {
        Member = (await read.RunAsync(caller.Scope, id, caller.Value.Today, stop))?.Members.SingleOrDefault(m => m.Id == relation)!;
        return Member is not null && RelationRules.MayWrite(caller.Value, id, Member.Kind);
    }
}
