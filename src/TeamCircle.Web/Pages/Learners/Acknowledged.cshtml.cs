using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Who on the team has read the plan as it stands and knows their part; and where a reader says so.</summary>
public sealed class AcknowledgedModel(CurrentCaller caller, ReadAcknowledged read, Acknowledge acknowledge) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Acknowledge.Input Input { get; set; } = new();

    public AcknowledgedPage Shown { get; private set; } = null!;

    /// <summary>The reader's own; null where they are not asked.</summary>
    public PersonReading? Own => Shown.People.FirstOrDefault(p => p.PersonId == caller.Value.PersonId);

    public Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => ShowAsync(id, stop);

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input.Learner = id;
        var outcome = await acknowledge.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = "Noted, with today's date.";
            return Redirect($"/learners/{id}/acknowledged");
        }
        var shown = await ShowAsync(id, stop);
        return Shown is null ? shown : this.Refuse(outcome.Problems);
    }

    private async Task<IActionResult> ShowAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        if (Shown is null)
            return NotFound();
        ModelState.Remove($"{nameof(Input)}.{nameof(Input.State)}");
        Input.State = Shown.Plan?.Number ?? 0;
        return Page();
    }
}
