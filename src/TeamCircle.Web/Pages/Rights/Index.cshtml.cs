using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Rights;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Rights;

/// <summary>Parents' requests to see or to amend a learner's record, with their outer dates.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadRequests read, ReceiveRequest receive) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ReceiveRequest.Input Input { get; set; } = new();

    public RequestsPage Requests { get; private set; } = null!;

    public IEnumerable<SelectListItem> Kinds { get; } = [.. Enum.GetValues<RequestKind>().Select(k => new SelectListItem(Say.Begin(RightsWords.Of(k)), $"{k}"))];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        Input = new() { ReceivedOn = caller.Value.Today };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await receive.RunAsync(caller.Value, Operation, Input with { Learner = id }, stop);
        if (outcome.Value is not { } saved)
            return await LoadAsync(id, stop) ? this.Refuse(outcome.Problems) : NotFound();
        TempData["Done"] = "The request is noted. It waits for you on Today until it is answered.";
        return Redirect($"/learners/{id}/requests/{saved.Request}");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Requests = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Requests is not null;
    }
}
