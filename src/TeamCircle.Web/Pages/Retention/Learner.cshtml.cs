using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Retention;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Retention;

/// <summary>What of one learner's record is to be, or was, destroyed, and each step of it.</summary>
public sealed class LearnerModel(CurrentCaller caller, ReadRetention read, DestructionActs acts) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public AskDestruction.Input Asked { get; private set; } = new();

    public TellFamily.Input Told { get; private set; } = new();

    public StopDestruction.Input Stopped { get; private set; } = new();

    public LearnerRetentionPage Shown { get; private set; } = null!;

    public bool Manages => caller.Value.Manages(Shown.LearnerId);

    public bool MayAgree => RetentionRules.MayDecide(caller.Value);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.OfLearnerAsync(caller.Value, id, stop) is not { } page)
            return NotFound();
        Shown = page;
        Asked = new() { AskedOn = caller.Value.Today, UpTo = caller.Value.Today };
        Told = new() { NoticeOn = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAskAsync(int id, [Bind(Prefix = nameof(Asked))] AskDestruction.Input asked, CancellationToken stop) =>
        await AnswerAsync(await acts.Ask.RunAsync(caller.Value, Operation, asked with { Learner = id }, stop), id, _ => "The request is noted. A director agrees to it next.", nameof(Asked), () => Asked = asked, stop);

    public async Task<IActionResult> OnPostTellAsync(int id, [Bind(Prefix = nameof(Told))] TellFamily.Input told, CancellationToken stop) =>
        await AnswerAsync(await acts.Tell.RunAsync(caller.Value, Operation, told with { Learner = id }, stop), id, s => $"It is noted. A director may agree from {Say.Date(s.WaitUntil)} on.", nameof(Told), () => Told = told, stop);

    public async Task<IActionResult> OnPostAgreeAsync(int id, [Bind(Prefix = "Turn")] DestructionInput turn, CancellationToken stop) =>
        await AnswerAsync(await acts.Agree.RunAsync(caller.Value, Operation, turn with { Learner = id }, stop), id, _ => "You agreed. Somebody else destroys it.", "", () => { }, stop);

    public async Task<IActionResult> OnPostDestroyAsync(int id, [Bind(Prefix = "Turn")] DestructionInput turn, CancellationToken stop) =>
        await AnswerAsync(await acts.Destroy.RunAsync(caller.Value, Operation, turn with { Learner = id }, stop), id, s => $"{Say.Number(s.Entries)} destroyed.", "", () => { }, stop);

    public async Task<IActionResult> OnPostStopAsync(int id, [Bind(Prefix = nameof(Stopped))] StopDestruction.Input stopped, CancellationToken stop) =>
        await AnswerAsync(await acts.Stop.RunAsync(caller.Value, Operation, stopped with { Learner = id }, stop), id, _ => "It is kept.", nameof(Stopped), () => Stopped = stopped, stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, Func<T, string> done, string prefix, Action keep, CancellationToken stop) where T : class
    {
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = done(saved);
            return Redirect($"/learners/{id}/retention");
        }
        if (await OnGetAsync(id, stop) is not PageResult)
            return NotFound();
        keep();
        return this.Refuse(outcome.Problems, prefix);
    }
}
