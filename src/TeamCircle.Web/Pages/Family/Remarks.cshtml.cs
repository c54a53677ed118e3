using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>What a family says, in its own words: taken down and answered here.</summary>
public sealed class RemarksModel(CurrentCaller caller, ReadRemarks read, EnterRemark enter, AnswerRemark answers) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public EnterRemark.Input Input { get; private set; } = new();

    public RemarksPage Remarks { get; private set; } = null!;

    /// <summary>The remark whose answer was refused, and what was typed; 0 where none was.</summary>
    public int Answering { get; private set; }

    public string? Typed { get; private set; }

    public IEnumerable<SelectListItem> Kinds { get; } = [.. Enum.GetValues<RemarkKind>().Select(k => new SelectListItem(Say.Begin(SummaryWords.Of(k)), $"{k}"))];

    public IEnumerable<SelectListItem> Visits => [new("None", ""), .. Remarks.Visits.Select(v => new SelectListItem(Of(v), $"{v.Id}"))];

    /// <summary>Mon 14 Sep, 9:30 am, vision, Odalys Ferreira</summary>
    public static string Of(RemarkVisit visit) =>
        $"{Say.ShortDay(visit.On)}, {Say.Time(visit.Start)}{(visit.Discipline is { } d ? $", {Words.Of(d)}" : "")}, {visit.Provider}";

    public async Task<IActionResult> OnGetAsync(int id, Guid? visit, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { SaidOn = caller.Value.Today, Visit = visit, Kind = visit is null ? null : RemarkKind.NotAsRemembered };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, [Bind(Prefix = nameof(Input))] EnterRemark.Input input, CancellationToken stop)
    {
        Input = input with { Learner = id };
        return await AnswerAsync(await enter.RunAsync(caller.Value, Operation, Input, stop), id, "Taken down. It waits for the case manager.", nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostAnswerAsync(int id, int remark, int version, string? answer, CancellationToken stop)
    {
        (Answering, Typed) = (remark, answer);
        Input = new() { SaidOn = caller.Value.Today };
        var outcome = await answers.RunAsync(caller.Value, Operation, new() { Learner = id, Remark = remark, Version = version, Answer = answer }, stop);
        return await AnswerAsync(outcome, id, "Answered. The family sees it.", "", stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, string done, string prefix, CancellationToken stop) where T : class
    {
        if (outcome.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems, prefix) : NotFound();
        TempData["Done"] = done;
        return Redirect($"/learners/{id}/remarks");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Remarks = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Remarks is not null;
    }
}
