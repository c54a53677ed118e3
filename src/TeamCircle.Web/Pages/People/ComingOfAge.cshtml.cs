using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>The day on which rights pass to a learner, who was told, and who keeps reading the record.</summary>
public sealed class ComingOfAgeModel(CurrentCaller caller, ReadComingOfAge read, EnterBirth enter, DecideSeat decide) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public EnterBirth.Input Input { get; private set; } = new();

    public ComingOfAgePage Shown { get; private set; } = null!;

    /// <summary>The seat whose decision was refused; null where none was.</summary>
    public int? Refused { get; private set; }

    public IReadOnlyList<SelectListItem> Bases { get; } = [Choices.None("Not decided"), .. Enum.GetValues<AdultBasis>().Select(b => new SelectListItem(Say.Begin(Of(b)), $"{b}"))];

    public static string Of(AdultBasis basis) => basis switch
    {
        AdultBasis.Guardianship => "guardian, or represents the learner",
        AdultBasis.Consent => "the adult learner agrees",
        _ => "the learner's own record",
    };

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } page)
            return NotFound();
        Shown = page;
        Input = new() { Version = page.Version, BornOn = page.BornOn, ToldOn = page.ToldOn, ToldWords = page.ToldWords };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, [Bind(Prefix = nameof(Input))] EnterBirth.Input input, CancellationToken stop)
    {
        var outcome = await enter.RunAsync(caller.Value, Operation, input with { Learner = id }, stop);
        if (outcome.Value is not null)
            return Done(id);
        if (await OnGetAsync(id, stop) is not PageResult)
            return NotFound();
        Input = input with { Version = outcome.Problems.AreOvertaken() ? Shown.Version : input.Version };
        return this.Refuse(outcome.Problems);
    }

    public async Task<IActionResult> OnPostSeatAsync(int id, [Bind(Prefix = "Deciding")] DecideSeat.Input deciding, CancellationToken stop)
    {
        var outcome = await decide.RunAsync(caller.Value, Operation, deciding with { Learner = id }, stop);
        if (outcome.Value is not null)
            return Done(id);
        if (await OnGetAsync(id, stop) is not PageResult)
            return NotFound();
        Refused = deciding.Seat;
        return this.Refuse(outcome.Problems, "");
    }

    private RedirectResult Done(int id)
    {
        TempData["Done"] = "Saved.";
        return Redirect($"/learners/{id}/coming-of-age");
    }
}
