using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>One time that a paper went out: it came back, or it did not go out like that. Whoever comes too late is led to the list.</summary>
public sealed class DeliveryModel(CurrentCaller caller, ReadPapers read, ChangeDelivery change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public ChangeDelivery.Input Returned { get; private set; } = new();

    public ChangeDelivery.Input TakeBack { get; private set; } = new();

    public int LearnerId { get; private set; }

    public string Learner { get; private set; } = "";

    public PaperShown Paper { get; private set; } = null!;

    public SendingShown Sending { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int delivery, CancellationToken stop)
    {
        if (!await LoadAsync(id, delivery, stop))
            return Redirect($"/learners/{id}/papers");
        Returned = new() { ReturnedOn = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostReturnedAsync(int id, int delivery, [Bind(Prefix = nameof(Returned))] ChangeDelivery.Input returned, CancellationToken stop)
    {
        Returned = returned with { Learner = id, Delivery = delivery, TakeBack = false };
        return await AnswerAsync(Returned, "It came back. It waits to be sent again.", nameof(Returned), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int delivery, [Bind(Prefix = nameof(TakeBack))] ChangeDelivery.Input takeBack, CancellationToken stop)
    {
        TakeBack = takeBack with { Learner = id, Delivery = delivery, TakeBack = true };
        return await AnswerAsync(TakeBack, "It is taken back.", nameof(TakeBack), stop);
    }

    private async Task<IActionResult> AnswerAsync(ChangeDelivery.Input input, string done, string prefix, CancellationToken stop)
    {
        var outcome = await change.RunAsync(caller.Value, Operation, input, stop);
        if (outcome.Value is null && outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        if (outcome.Value is null && await LoadAsync(input.Learner, input.Delivery, stop))
            return this.Refuse(outcome.Problems, prefix);
        if (outcome.Value is not null)
            TempData["Done"] = done;
        return Redirect($"/learners/{input.Learner}/papers");
    }

    private async Task<bool> LoadAsync(int id, int delivery, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, id, stop) is not { } page
            || page.Papers.FirstOrDefault(p => p.Sendings.Any(s => s.Id == delivery && s.TakenBack is null)) is not { } paper)
            return false;
        (LearnerId, Learner, Paper, Sending) = (id, page.Learner, paper, paper.Sendings.Single(s => s.Id == delivery));
        return true;
    }
}
