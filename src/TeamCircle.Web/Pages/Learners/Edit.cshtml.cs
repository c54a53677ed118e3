using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Changes a learner's name, code, most minutes a day and sending district.</summary>
public sealed class EditModel(CurrentCaller caller, ReadPlan read, ChangeLearner change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangeLearner.Input Input { get; set; } = new();

    public LearnerHead Now { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { Version = Now.Version, Code = Now.Code, Name = Now.Name, MostMinutesADay = Now.MostMinutesADay, SendingDistrict = Now.SendingDistrict };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        Input.Learner = id;
        var outcome = await change.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Now.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "Saved.";
        return Redirect($"/learners/{id}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Now = (await read.RunAsync(caller.Scope, id, stop))?.Learner!;
        return Now is not null;
    }
}
