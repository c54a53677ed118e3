using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Quiet;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Quiet;

/// <summary>A learner's quiet: what stops, setting it, ending it.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadQuiet read) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public SetQuiet.Input Input { get; private set; } = new();

    public EndQuiet.Input Ended { get; private set; } = new();

    public QuietPage Quiet { get; private set; } = null!;

    public bool Manages => caller.Value.Manages(Quiet.LearnerId);

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, [FromServices] SetQuiet set, [Bind(Prefix = nameof(Input))] SetQuiet.Input input, CancellationToken stop)
    {
        Input = input;
        var outcome = ModelState.IsValid ? await set.RunAsync(caller.Value, Operation, input with { Learner = id }, stop) : null;
        if (outcome?.Value is not { } saved)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
        TempData["Done"] = saved.Stopped == 0 ? "It is quiet. No mail was waiting." : $"It is quiet. {Say.Count(saved.Stopped, "mail")} that waited {(saved.Stopped == 1 ? "is" : "are")} stopped.";
        return Redirect($"/learners/{id}/quiet");
    }

    public async Task<IActionResult> OnPostEndAsync(int id, [FromServices] EndQuiet end, [Bind(Prefix = nameof(Ended))] EndQuiet.Input ended, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await end.RunAsync(caller.Value, Operation, ended with { Learner = id }, stop) : null;
        if (outcome?.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome?.Problems ?? [], nameof(Ended)) : NotFound();
        TempData["Done"] = "The quiet has ended.";
        return Redirect($"/learners/{id}/quiet");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, stop) is not { } page)
            return false;
        Quiet = page;
        if (page.Standing is { } standing)
            Ended = new() { Quiet = standing.Id, Version = standing.Version };
        return true;
    }
}
