using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>Ends a hold with words. It exists for whoever may end this one.</summary>
public sealed class EndHoldModel(CurrentCaller caller, ReadHolds read, EndHold end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndHold.Input Input { get; set; } = new();

    public string Learner { get; private set; } = "";

    public StandingHold Standing { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int hold, CancellationToken stop)
    {
        if (!await LoadAsync(id, hold, stop))
            return NotFound();
        Input = new() { Version = Standing.Hold.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int hold, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await end.RunAsync(caller.Value, Operation, Input with { Learner = id, Hold = hold }, stop) : null;
        if (outcome?.Value is not null)
        {
            TempData["Done"] = "The hold has ended.";
            return Redirect($"/learners/{id}/holds");
        }
        return await LoadAsync(id, hold, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
    }

    private async Task<bool> LoadAsync(int id, int hold, CancellationToken stop)
    {
        var page = await read.RunAsync(caller.Value, caller.Scope, id, stop);
        if (page?.Standing.SingleOrDefault(h => h.Hold.Id == hold && h.Ending != HoldEnding.No) is not { } standing)
            return false;
        (Learner, Standing) = (page.Learner, standing);
        return true;
    }
}
