using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>Somebody's last day: the administrator sets it; they and the case managers see what is left to decide.</summary>
public sealed class LastDayModel(CurrentCaller caller, ReadLastDay read, LastDayActs acts) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty(SupportsGet = true)]
    public int Id { get; set; }

    public SetLastDay.Input Input { get; private set; } = new();

    public TakeBackLastDay.Input Back { get; private set; } = new();

    public LastDayPage Shown { get; private set; } = null!;

    public bool IsAdministrator => caller.Value.Is(Role.Administrator);

    public bool IsOwn => caller.Value.PersonId == Id;

    /// <summary>Whether the last day is over, so that what waited for them falls to others.</summary>
    public bool HasLeft => Shown.Last is { } last && last.Day < caller.Value.Today;

    public bool MayHandOver(int? learner) => learner is { } one && caller.Value.Manages(one);

    /// <summary>Whether the reader does it on its own page: the person themselves; for them once they are gone, and for what a device sent at any time, the case manager.</summary>
    public bool MayDo(HandOverItem item) =>
        IsOwn || (MayHandOver(item.Learner) && (item.Kind == HandOverKind.SetAside || (HasLeft && item.Kind == HandOverKind.Countersign)));

    public bool MayFile(HandOverItem item) =>
        !IsOwn && MayHandOver(item.Learner) && Shown.Last is { } last && HandOverList.CanBeFiled(item.Kind, last.Day, caller.Value.Today);

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, caller.Scope, Id, stop) is not { } page)
            return NotFound();
        Shown = page;
        Back = new() { Version = page.Last?.Version ?? 0 };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync([Bind(Prefix = nameof(Input))] SetLastDay.Input input, CancellationToken stop)
    {
        Input = input;
        return await AnswerAsync(await acts.Set.RunAsync(caller.Value, Operation, input with { Person = Id }, stop),
            "The last day is set. Roles end with it; what is left to decide stands below.", nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync([Bind(Prefix = nameof(Back))] TakeBackLastDay.Input back, CancellationToken stop) =>
        await AnswerAsync(await acts.TakeBack.RunAsync(caller.Value, Operation, back with { Person = Id }, stop),
            "The last day is taken back: roles and relations stand as before.", nameof(Back), stop);

    public async Task<IActionResult> OnPostFinishAsync([FromForm] int version, CancellationToken stop) =>
        await AnswerAsync(await acts.Finish.RunAsync(caller.Value, Operation, new(Id, version), stop), "The hand-over is finished.", "", stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, string done, string prefix, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return Redirect($"/people/{Id}/last-day");
        }
        return await OnGetAsync(stop) is PageResult ? this.Refuse(outcome.Problems, prefix) : NotFound();
    }
}
