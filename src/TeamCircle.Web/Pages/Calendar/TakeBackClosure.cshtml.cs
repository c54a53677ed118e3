using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Takes a closure or an extra day back; what it would change is shown first.</summary>
public sealed class TakeBackClosureModel(CurrentCaller caller, ReadCalendar read, TakeBackClosure takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackClosure.Input Input { get; set; } = new();

    public ClosureView Closure { get; private set; } = null!;

    public StatusPreview? Preview { get; private set; }

    public async Task<IActionResult> OnGetAsync(int closure, CancellationToken stop)
    {
        if (!await LoadAsync(closure, stop))
            return NotFound();
        Input.Version = Closure.Version;
        var outcome = await takeBack.PreviewAsync(caller.Value, Input, stop);
        Preview = outcome.Value;
        return Preview is not null ? Page() : this.Refuse(outcome.Problems);
    }

    public async Task<IActionResult> OnPostAsync(int closure, CancellationToken stop)
    {
        if (!await LoadAsync(closure, stop))
            return NotFound();
        var outcome = await takeBack.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
        {
            Preview = (await takeBack.PreviewAsync(caller.Value, Input, stop)).Value;
            Input.Version = Closure.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = $"Taken back: {Closure.Name}, {Say.Date(Closure.OnDay)}.{ClosureVisitsModel.CameBack(saved.Back, saved.Lost)}";
        return Redirect("/settings/calendar");
    }

    private async Task<bool> LoadAsync(int closure, CancellationToken stop)
    {
        Input.Closure = closure;
        Closure = (await read.RunAsync(caller.Scope, stop)).Closures.SingleOrDefault(c => c.Id == closure)!;
        return Closure is not null;
    }
}
