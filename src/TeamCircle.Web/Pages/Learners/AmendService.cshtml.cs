using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Amends a service from a day on. Who loses a race sees both versions, and saving again is then a choice.</summary>
public sealed class AmendServiceModel(CurrentCaller caller, ReadPlan read, AmendService amend) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AmendService.Input Input { get; set; } = new();

    public ServiceInPlan Service { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        var last = Service.Last;
        Input.Version = Service.Version;
        Input.Amount = new()
        {
            Quantity = last.Quantity,
            QuantityTo = last.QuantityTo,
            AssistantsCount = last.AssistantsCount,
            Sessions = last.Sessions,
            EveryUnit = Service.Every.Unit,
            EveryCount = Service.Every.Count,
        };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int service, CancellationToken stop)
    {
        if (!await LoadAsync(id, service, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        (Input.Learner, Input.Service) = (id, service);
        var outcome = await amend.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
        {
            if (outcome.Problems.AreOvertaken())
                Input.Version = Service.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = saved.VisitsMoved > 0 ? $"The amendment is saved. {Say.Count(saved.VisitsMoved, "planned visit")} went over to the new service." : "The amendment is saved.";
        return Redirect($"/learners/{id}/plan#service-{saved.Service}");
    }

    private async Task<bool> LoadAsync(int id, int service, CancellationToken stop)
    {
        Service = (await read.RunAsync(caller.Scope, id, stop))?.Service(service)!;
        return Service is not null;
    }
}
