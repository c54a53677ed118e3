using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.People;

/// <summary>Who stands how to a learner, with dates.</summary>
public sealed class TeamModel(CurrentCaller caller, ReadTeam read) : PageModel
{
    public TeamPage Shown { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    /// <summary>Whether the caller writes that kind of relation.</summary>
    public bool Writes(Relation kind) => RelationRules.MayWrite(caller.Value, Learner, kind);

    /// <summary>Whether assistants work or worked with the learner, and the reader may see how they are supervised.</summary>
    public bool HasAssistants => Shown.Members.Any(m => m.Kind == Relation.Assistant) && (caller.Value.IsMember(Learner) || caller.Value.Stands(Learner, Relation.Assistant));

    public int Learner { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Learner = id;
        Shown = (await read.RunAsync(caller.Scope, id, Today, stop))!;
        return Shown is null ? NotFound() : Page();
    }
}
