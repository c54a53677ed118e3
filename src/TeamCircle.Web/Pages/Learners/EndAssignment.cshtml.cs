using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Gives somebody who is named for a service another last day, or takes it back.</summary>
public sealed class EndAssignmentModel(CurrentCaller caller, ReadPlan read, EndAssignment end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndAssignment.Input Input { get; set; } = new();

    public NamedView Named { get; private set; } = null!;

    public string Code { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(int id, int assignment, CancellationToken stop)
    {
        if (!await LoadAsync(id, assignment, stop))
            return NotFound();
        (Input.Version, Input.LastDay) = (Named.Version, Named.ToDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int assignment, CancellationToken stop)
    {
        if (!await LoadAsync(id, assignment, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Assignment) = (id, assignment);
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

    private async Task<bool> LoadAsync(int id, int assignment, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, stop) is not { } plan)
            return false;
        (Code, Named) = plan.Plans.SelectMany(p => p.Services).SelectMany(s => s.Assigned.Select(a => (s.Code, Named: a))).FirstOrDefault(n => n.Named.Id == assignment);
        return Named is not null;
    }
}
