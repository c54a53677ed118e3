using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>Records what people decided about minutes that were not given in one window of a service.</summary>
public sealed class DecideServiceModel(CurrentCaller caller, ReadDecide read, Decide decide) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Decide.Input Input { get; set; } = new();

    public DecideForm Form { get; private set; } = null!;

    /// <param name="day">A day of the window.</param>
    public async Task<IActionResult> OnGetAsync(int id, LocalDate day, CancellationToken stop)
    {
        Input = new() { ServiceId = id, OnDay = day, DecidedOn = caller.Value.Today };
        return await ShowAsync(stop);
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input = Input with { ServiceId = id };
        var outcome = ModelState.IsValid ? await decide.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is { } decided)
        {
            TempData["Done"] = DecideForm.Done(decided);
            return Redirect($"/audit/services/{id}");
        }
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        ModelState.AddProblems(outcome?.Problems ?? [], nameof(Input));
        return await ShowAsync(stop);
    }

    private async Task<IActionResult> ShowAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, Input.ServiceId, null, null, Input.OnDay, stop) is not { } facts)
            return NotFound();
        Form = new(facts, Input);
        return Page();
    }
}
