using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>What assistants logged and the reader has to countersign.</summary>
public sealed class ToCountersignModel(CurrentCaller caller, ReadCountersign read) : PageModel
{
    public IReadOnlyList<EntryToSign> Waiting { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken stop) => Waiting = await read.RunAsync(caller.Value, caller.Scope, stop);
}
