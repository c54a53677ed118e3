using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>Where an outside reviewer begins: the files that are open to them today.</summary>
public sealed class FilesModel(CurrentCaller caller, ReadReviewFiles read) : PageModel
{
    public IReadOnlyList<ReviewFileListed> Listed { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken stop) => Listed = await read.RunAsync(caller.Value, caller.Scope, stop);
}
