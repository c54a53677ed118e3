using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Changes from a day on how many probes a goal asks for.</summary>
public sealed class ProbesModel(CurrentCaller caller, ReadPlan read, SetProbes set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SetProbes.Input Input { get; set; } = new();

    public GoalInPlan Goal { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        Input.Version = Goal.Version;
        if (Goal.Probes is [.., var last])
            Input.Probes = new() { Probes = last.Probes, EveryUnit = last.Every.Unit, EveryCount = last.Every.Count, ByEach = last.ByEach };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int goal, CancellationToken stop)
    {
        if (!await LoadAsync(id, goal, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Goal) = (id, goal);
        var outcome = await set.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Goal.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "Saved.";
        return Redirect($"/learners/{id}/plan#goal-{goal}");
    }

    private async Task<bool> LoadAsync(int id, int goal, CancellationToken stop)
    {
        Goal = (await read.RunAsync(caller.Scope, id, stop))?.Goal(goal)!;
        return Goal is not null;
    }
}
