using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Beginning;
using TeamCircle.Core.People;
using TeamCircle.Data.Beginning;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Beginning;

/// <summary>The way of a new agency up to its first audit, and how far it has come.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadBeginning read) : PageModel
{
    /// <summary>What an administrator does, and where; a director reads how far it has come.</summary>
    public bool MayDo => caller.Value.Is(Role.Administrator);

    public BeginningFacts Facts { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Value, stop) is not { } facts)
            return NotFound();
        Facts = facts;
        return Page();
    }

    public IEnumerable<BeginningLine> Lines => BeginningRules.Steps.Select(s => BeginningWords.Of(s, Facts));
}
