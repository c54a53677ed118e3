using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>The pack for one meeting: the document itself, with what can be done about it. Printed, only the document is left.</summary>
public sealed class PackModel(CurrentCaller caller, ReadPacks read, ChangePack change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public PackPage Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int meeting, CancellationToken stop)
    {
        if (await read.OneAsync(caller.Value, caller.Scope, id, meeting, stop) is not { } pack)
            return NotFound();
        Shown = pack;
        return Page();
    }

    public Task<IActionResult> OnPostAnewAsync(int id, int meeting, int version, CancellationToken stop) =>
        AnswerAsync(new() { Learner = id, Meeting = meeting, Version = version }, "The figures are as recorded today.", stop);

    public Task<IActionResult> OnPostCallOffAsync(int id, int meeting, int version, string? reason, CancellationToken stop) =>
        AnswerAsync(new() { Learner = id, Meeting = meeting, Version = version, CallOff = true, Reason = reason }, "The meeting is called off.", stop);

    private async Task<IActionResult> AnswerAsync(ChangePack.Input input, string done, CancellationToken stop)
    {
        var outcome = await change.RunAsync(caller.Value, Operation, input, stop);
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/learners/{input.Learner}/meeting-pack/{input.Meeting}");
        }
        if (outcome.Problems.Contains(Problem.NotFound) || await OnGetAsync(input.Learner, input.Meeting, stop) is not PageResult)
            return NotFound();
        return this.Refuse([.. outcome.Problems.Select(p => p.Field == "Reason" ? p with { Field = "" } : p)], "");
    }
}
