using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Enters an award of compensatory services as a paper from outside says it.</summary>
public sealed class AddAwardModel(CurrentCaller caller, ReadBroughtForward read, AddAward add) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AddAward.Input Input { get; set; } = new();

    public AwardChoices Facts { get; private set; } = null!;

    public IReadOnlyList<SelectListItem> Services =>
        [new("Any service of the discipline", ""), .. Facts.Services.Select(s => new SelectListItem($"{s.Code}, {Core.Words.Of(s.Discipline)}", s.Id.ToString(CultureInfo.InvariantCulture)))];

    public IReadOnlyList<SelectListItem> Disciplines =>
        [new("As the service", ""), .. Choices.Of(Facts.Services.Select(s => s.Discipline).Distinct(), Say.Discipline)];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Input.FromDay = caller.Value.Today;
        return await ShowAsync(id, stop);
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input.Learner = id;
        var shown = await ShowAsync(id, stop);
        if (shown is not PageResult || !ModelState.IsValid)
            return shown;
        var outcome = await add.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = "The award is entered. Visits can name it now; they count for nothing else.";
        return Redirect($"/learners/{id}/brought-forward#award-{saved.Award}");
    }

    private async Task<IActionResult> ShowAsync(int id, CancellationToken stop)
    {
        if (await read.ChoicesAsync(caller.Value, id, stop) is not { } facts)
            return NotFound();
        Facts = facts;
        return Page();
    }
}
