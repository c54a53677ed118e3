using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Practice;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>A learner's practices; of one routine, where the address names it.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadPractices read) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int? Routine { get; set; }

    public int Id { get; private set; }

    public IReadOnlyList<ListedPractice> Practices { get; private set; } = [];

    public async Task OnGetAsync(int id, CancellationToken stop) => (Id, Practices) = (id, await read.RunAsync(caller.Scope, id, Routine, stop));
}
