using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Gives a service another last day.</summary>
public sealed class EndServiceModel(CurrentCaller caller, ReadPlan read, EndService end) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EndService.Input Input { get; set; } = new();

    public ServiceInPlan Service { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        (Input.Version, Input.LastDay) = (Service.Version, Service.ToDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Service) = (id, service);
        var outcome = await end.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Service.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = saved.PlannedAfter > 0
            ? $"Saved. {Say.Count(saved.PlannedAfter, "visit")} {(saved.PlannedAfter == 1 ? "is" : "are")} still planned after that day: call them off or move them."
            : "Saved.";
        return Redirect($"/learners/{id}/plan#service-{service}");
    }

    private async Task<bool> LoadAsync(int id, int service, CancellationToken stop)
    {
        Service = (await read.RunAsync(caller.Scope, id, stop))?.Service(service)!;
        return Service is not null;
    }
}
