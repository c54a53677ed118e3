using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Records what people decided about something brought forward, and takes such a decision back.</summary>
public sealed class DecideDebtModel(CurrentCaller caller, ReadBroughtForward read, DecideDebt decide, TakeBackDebtDecision takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public DecideDebt.Input Input { get; set; } = new();

    [BindProperty]
    public TakeBackDebtDecision.Input Back { get; set; } = new();

    public DebtPage Facts { get; private set; } = null!;

    public DebtOnRecord Debt => Facts.Debt;

    public bool IsProbes => Debt.Line.IsProbes;

    /// <summary>The decision that can be taken back: the last one that stands.</summary>
    public DebtDecisionRow? Last => Debt.Decisions.LastOrDefault(d => d.Live);

    public string List => $"/learners/{Debt.Row.LearnerId}/brought-forward";

    public string Amount(DebtAmount amount) => DebtWords.Amount(amount, IsProbes);

    public string Names(IEnumerable<int> people) => Say.List([.. people.Select(p => Facts.People.GetValueOrDefault(p, "somebody"))]);

    /// <summary>Who can decide what alone, in words.</summary>
    public string SecondPerson => (Facts.Explained.Minutes >= Debt.Account.Standing.Open.Minutes, Facts.HasDirector) switch
    {
        (true, _) => "Reasons of the child, the family or nobody explain what is open: one person may record it as not owed.",
        (_, true) => $"One person alone may decide {Amount(Facts.Explained)} not owed. More lies on the agency's side or is explained by no visit: that takes a director too.",
        _ => $"One person alone may decide {Amount(Facts.Explained)} not owed. More lies on the agency's side or is explained by no visit: that takes a second person.",
    };

    public async Task<IActionResult> OnGetAsync(int id, int debt, CancellationToken stop)
    {
        Input = new() { DecidedOn = caller.Value.Today };
        return await ShowAsync(id, debt, stop) is PageResult page ? page : Redirect($"/learners/{id}/brought-forward");
    }

    public async Task<IActionResult> OnPostAsync(int id, int debt, CancellationToken stop)
    {
        Input = Input with { Learner = id, Debt = debt };
        var outcome = ModelState.IsValid ? await decide.RunAsync(caller.Value, Operation, Input, stop) : null;
        return await AnswerAsync(id, debt, outcome?.Problems, outcome?.Value is { } decided ? SavedWords.Join("Saved.", decided.Notices) : null, nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int debt, CancellationToken stop)
    {
        var outcome = await takeBack.RunAsync(caller.Value, Operation, Back with { Learner = id }, stop);
        Input = new() { DecidedOn = caller.Value.Today };
        return await AnswerAsync(id, debt, outcome.Problems, outcome.Value is null ? null : "Taken back. What it was about is open as it was before.", nameof(Back), stop);
    }

    private async Task<IActionResult> AnswerAsync(int id, int debt, IReadOnlyList<Problem>? problems, string? done, string prefix, CancellationToken stop)
    {
        if (done is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{id}/brought-forward#debt-{debt}");
        }
        if (problems?.Contains(Problem.NotFound) == true)
            return NotFound();
        ModelState.AddProblems(problems ?? [], prefix);
        return await ShowAsync(id, debt, stop);
    }

    private async Task<IActionResult> ShowAsync(int id, int debt, CancellationToken stop)
    {
        if (await read.DebtAsync(caller.Value, id, debt, stop) is not { } facts)
            return NotFound();
        Facts = facts;
        return Page();
    }
}
