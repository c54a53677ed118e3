using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.History;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.History;

/// <summary>The record of access of one learner (34 CFR 300.614): who looked, when, at what, on what ground.</summary>
public sealed class AccessModel(CurrentCaller caller, ReadAccess read) : PageModel
{
    public int Learner { get; private set; }

    public AccessPage Record { get; private set; } = null!;

    /// <summary>Whether all of it stands on one page, to be printed.</summary>
    public bool IsWhole { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, long? before, bool all, CancellationToken stop)
    {
        IsWhole = all;
        if (await read.RunAsync(caller.Scope, id, before, all ? ReadAccess.PrintLength : ReadAccess.PageLength, stop) is not { } record)
            return NotFound();
        (Learner, Record) = (id, record);
        return Page();
    }
}
