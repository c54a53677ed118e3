using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Papers;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>What went to the parents of a learner, and what is still to go.</summary>
public sealed class SentModel(CurrentCaller caller, ReadPapers read, SendPaper send) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public SendPaper.Input Input { get; set; } = new();

    public PapersPage Papers { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    /// <summary>Papers that can have gone out: those that the portal has, then the others.</summary>
    public IEnumerable<SelectListItem> Choices => [
        new("Choose", ""),
        .. Papers.Papers.Where(p => p.IsReady && p.Place.Id is not null).Select(p => new SelectListItem($"{Say.Begin(PaperWords.Of(p.Place.Kind))}: {p.Name}", p.Place.Value)),
        .. new[] { PaperKind.Evaluation, PaperKind.PriorNotice }.Select(k => new SelectListItem(Say.Begin(PaperWords.Of(k)), new PaperPlace(k).Value))];

    public bool Waits(PaperShown paper) => Papers.MayKeep && paper.StateOn(Today) is (DeliveryState.Overdue or DeliveryState.Returned);

    /// <param name="paper">What the link before named.</param>
    public async Task<IActionResult> OnGetAsync(int id, string? paper, CancellationToken stop)
    {
        Input = new() { Paper = PaperPlace.Read(paper)?.Value, SentOn = Today };
        return await LoadAsync(id, stop) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await send.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop) : null;
        if (outcome?.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = "It stands in the list.";
        return Redirect($"/learners/{id}/papers");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Papers = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Papers is not null;
    }
}
