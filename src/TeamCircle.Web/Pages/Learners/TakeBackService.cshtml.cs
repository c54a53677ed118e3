using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Takes back a service's last amendment, or a service that was entered by mistake.</summary>
public sealed class TakeBackServiceModel(CurrentCaller caller, ReadPlan read, TakeBackAmendment amendment, TakeBackService whole) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackService.Input Input { get; set; } = new();

    public ServiceInPlan Service { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int service, CancellationToken stop) =>
        await LoadAsync(id, service, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAmendmentAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        var outcome = await amendment.RunAsync(caller.Value, Operation,
            new() { Learner = id, Service = service, Version = Input.Version, Reason = Input.Reason }, stop);
        return Answer(outcome.Value is not null, outcome.Problems, id, "The last change is taken back. The amount before it holds on.");
    }

    public async Task<IActionResult> OnPostAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        (Input.Learner, Input.Service) = (id, service);
        var outcome = await whole.RunAsync(caller.Value, Operation, Input, stop);
        return Answer(outcome.Value is not null, outcome.Problems, id, $"The service {Service.Code} is taken back.");
    }

    private IActionResult Answer(bool isDone, IReadOnlyList<Problem> problems, int id, string done)
    {
        if (!isDone)
            return this.Refuse(problems);
        TempData["Done"] = done;
        return Redirect($"/learners/{id}/plan");
    }

    private async Task<bool> LoadAsync(int id, int service, CancellationToken stop)
    {
        Service = (await read.RunAsync(caller.Scope, id, stop))?.Service(service)!;
        return Service is not null;
    }
}
