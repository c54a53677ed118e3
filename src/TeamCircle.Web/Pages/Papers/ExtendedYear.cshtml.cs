using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>What a learner's team decided about an extended school year, by when it decides, and the services and goals of it.</summary>
public sealed class ExtendedYearModel(CurrentCaller caller, ReadExtendedYear read, AskExtendedYear asking, DecideExtendedYear deciding) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public AskExtendedYear.Input Ask { get; private set; } = new();

    public DecideExtendedYear.Input Decision { get; private set; } = new();

    public ExtendedYearPage Shown { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public static IEnumerable<SelectListItem> Answers { get; } = [.. Enum.GetValues<ExtendedYearAnswer>().Select(a => new SelectListItem(Say.Begin(PaperWords.Of(a)), $"{a}"))];

    /// <summary>The latest decision that stands; null where there is none.</summary>
    public ExtendedYearShown? Stands => Shown.Decisions.FirstOrDefault(d => d is { Answer: not null, TakenBack: null });

    public IEnumerable<SelectListItem> Instead => [new("For another summer", ""), new("In place of the decision before", $"{Stands!.Id}")];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Ask = new() { DecideBy = Shown.Open?.DecideBy };
        Decision = new() { DecidedOn = Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAskAsync(int id, [Bind(Prefix = nameof(Ask))] AskExtendedYear.Input ask, CancellationToken stop)
    {
        Ask = ask with { Learner = id };
        return await AnswerAsync(await asking.RunAsync(caller.Value, Operation, Ask, stop), id, "The day stands among the dates that bind.", nameof(Ask), stop);
    }

    public async Task<IActionResult> OnPostDecideAsync(int id, [Bind(Prefix = nameof(Decision))] DecideExtendedYear.Input decision, CancellationToken stop)
    {
        Decision = decision with { Learner = id };
        return await AnswerAsync(await deciding.RunAsync(caller.Value, Operation, Decision, stop), id, "The team's decision is recorded.", nameof(Decision), stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, string done, string prefix, CancellationToken stop) where T : class
    {
        if (outcome.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems, prefix) : NotFound();
        TempData["Done"] = done;
        return Redirect($"/learners/{id}/extended-year");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is not null;
    }
}
