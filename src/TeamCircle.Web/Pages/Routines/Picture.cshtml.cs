using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>A picture itself: only for who may read the learner, and kept by no browser.</summary>
public sealed class PictureModel(CurrentCaller caller, ReadRoutine read) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int id, int picture, CancellationToken stop) =>
        await read.PictureAsync(caller.Scope, id, picture, stop) is { } jpeg ? File(jpeg, "image/jpeg") : NotFound();
}
