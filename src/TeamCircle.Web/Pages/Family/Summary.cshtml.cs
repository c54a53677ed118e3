using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>One edition of a summary as the family reads it, with what the case manager may still do.</summary>
public sealed class SummaryModel(CurrentCaller caller, ReadSummaries read, PublishSummary publish, SummaryTurns turns) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public string? Why { get; set; }

    public SummaryView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int summary, CancellationToken stop)
    {
        if (await read.OneAsync(caller.Value, caller.Scope, id, summary, stop) is not { } page)
            return NotFound();
        Shown = new(page, FamilyLanguage.Of(HttpContext));
        return Page();
    }

    public async Task<IActionResult> OnPostPublishAsync(int id, int summary, int version, CancellationToken stop)
    {
        var outcome = await publish.RunAsync(caller.Value, Operation, new() { Learner = id, Summary = summary, Version = version }, stop);
        return await AnswerAsync(outcome, id, summary, _ => ($"/learners/{id}/summaries/{summary}", "The family can read it now."), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int summary, int version, CancellationToken stop)
    {
        var outcome = await turns.TakeBack.RunAsync(caller.Value, Operation, new() { Learner = id, Summary = summary, Version = version, Why = Why }, stop);
        return await AnswerAsync(
            outcome, id, summary, saved => ($"/learners/{id}/summaries", saved.WasPublished ? "Withdrawn. The family can no longer read it." : "The draft is gone."), stop);
    }

    public async Task<IActionResult> OnPostCorrectAsync(int id, int summary, CancellationToken stop)
    {
        var outcome = await turns.Correct.RunAsync(caller.Value, Operation, new() { Learner = id, Summary = summary, Why = Why }, stop);
        return await AnswerAsync(
            outcome, id, summary, saved => ($"/learners/{id}/summaries/{saved.Summary}/edit", "Another edition is begun. The family reads the old one until this one is published."), stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, int summary, Func<T, (string Next, string Done)> said, CancellationToken stop) where T : class
    {
        if (outcome.Value is { } saved)
        {
            (var next, TempData["Done"]) = said(saved);
            return Redirect(next);
        }
        if (outcome.Problems.Contains(Problem.NotFound) || await OnGetAsync(id, summary, stop) is not PageResult page)
            return NotFound();
        ModelState.AddProblems([.. outcome.Problems.Select(p => p with { Field = p.Field == nameof(Why) ? p.Field : "" })], "");
        return page;
    }
}
