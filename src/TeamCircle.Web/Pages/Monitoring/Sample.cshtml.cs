using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Monitoring;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>The files of a sample, in the order in which they were drawn.</summary>
public sealed class SampleModel(CurrentCaller caller, ReadSamples read) : PageModel
{
    public static int Questions => Enum.GetValues<FileQuestion>().Length;

    public SampleShown Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int sample, CancellationToken stop)
    {
        if (await read.OfAsync(caller.Scope, sample, stop) is not { } shown)
            return NotFound();
        Shown = shown;
        return Page();
    }
}
