using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Names who may give a service, and when.</summary>
public sealed class AssignModel(CurrentCaller caller, ReadPlan read, ReadStaff staff, AssignProvider assign) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AssignProvider.Input Input { get; set; } = new();

    public ServiceInPlan Service { get; private set; } = null!;

    public IReadOnlyList<NamedId> People { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        (Input.FromDay, Input.ToDay) = (Service.FromDay, Service.ToDay);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Service) = (id, service);
        var outcome = await assign.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = saved.JoinedTeam ? "Saved. They are on the learner's team now." : "Saved.";
        return Redirect($"/learners/{id}/services/{service}/assign");
    }

    private async Task<bool> LoadAsync(int id, int service, CancellationToken stop)
    {
        Service = (await read.RunAsync(caller.Scope, id, stop))?.Service(service)!;
        People = await staff.RunAsync(caller.Scope, caller.Value.Today, stop);
        return Service is not null;
    }
}
