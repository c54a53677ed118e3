using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Finding;
using TeamCircle.Core.People;
using TeamCircle.Data.Finding;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Finding;

/// <summary>What a few letters find: learners, people, goals, routines, and the visits of a day. Before anything is typed, the learners opened last.</summary>
public sealed class IndexModel(CurrentCaller caller, FindByWords find, ReadRecent recent, SealedWords words) : PageModel
{
    /// <summary>The words, sealed: they are posted and never stand in an address as they were typed.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Of { get; set; }

    /// <summary>As it was typed; null where nothing was.</summary>
    public string? Typed { get; private set; }

    public Sought Sought { get; private set; } = null!;

    /// <summary>Null where nothing was looked for.</summary>
    public Found? Found { get; private set; }

    public IReadOnlyList<NamedId> Recent { get; private set; } = [];

    /// <summary>Whether the whole agency is looked through, by names alone.</summary>
    public bool OfAgency => caller.Value.Is(Role.Administrator) || caller.Value.Is(Role.Director);

    public bool LooksAfterPeople => caller.Value.Is(Role.Administrator);

    /// <summary>Whether the audit that they read is the whole agency's, which is narrowed from here.</summary>
    public bool AuditsAgency => caller.Scope.Wall == Data.Wall.Agency;

    public async Task OnGetAsync(CancellationToken stop)
    {
        Typed = words.Open(caller.AccountId!.Value, Of);
        Sought = Sought.Of(Typed, caller.Value.Today);
        if (Sought.IsEmpty)
            Recent = await recent.RunAsync(caller.Value, stop);
        else
            Found = await find.RunAsync(caller.Value, caller.Scope, Sought, stop);
    }

    public IActionResult OnPost(string? q)
    {
        var typed = (q ?? "").Trim();
        typed = typed.Length > Sought.MostLetters ? typed[..Sought.MostLetters] : typed;
        return RedirectToPage(typed.Length == 0 ? null : new { of = words.Seal(caller.AccountId!.Value, typed) });
    }
}
