using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>Sets a hold with one short form.</summary>
public sealed class SetHoldModel(CurrentCaller caller, ReadHolds read, SetHold set) : PageModel
{
    public sealed record Form
    {
        /// <summary>What it lies on, as <see cref="HoldWords.Key"/> names it.</summary>
        public string? On { get; init; }
        public string? Reason { get; init; }
        public HoldWord? ToldAs { get; init; }
        public string? ToldBy { get; init; }
        public LocalDate? ToldOn { get; init; }
        public LocalTime? ToldTime { get; init; }

        public SetHold.Input Of(int learner)
        {
            var place = HoldWords.PlaceOf(On);
            return new()
            {
                Learner = learner,
                Routine = place?.Routine,
                Step = place?.Step,
                Part = place?.Part,
                Service = place?.Service,
                Reason = Reason,
                ToldAs = ToldAs,
                ToldBy = ToldBy,
                ToldOn = ToldOn,
                ToldTime = ToldTime,
            };
        }
    }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public HoldsPage Holds { get; private set; } = null!;

    /// <param name="on">What the link before named.</param>
    public async Task<IActionResult> OnGetAsync(int id, string? on, CancellationToken stop)
    {
        Input = new() { On = on, ToldOn = caller.Value.Today };
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, Input.Of(id), stop) : null;
        if (outcome?.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = "The hold is set.";
        return Redirect($"/learners/{id}/holds");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Holds = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Holds is { MaySet: true };
    }
}
