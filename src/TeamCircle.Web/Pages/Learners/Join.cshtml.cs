using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Joins two entries of one learner, after both have been looked at.</summary>
public sealed class JoinModel(CurrentCaller caller, JoinLearners join) : PageModel
{
    private IReadOnlyList<JoinChoice> _learners = [];

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public JoinLearners.Input Input { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public int? Doubled { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Stays { get; set; }

    /// <summary>Null until two were chosen.</summary>
    public JoinPage? Both { get; private set; }

    public IReadOnlyList<Joined> Joined { get; private set; } = [];

    public IEnumerable<SelectListItem> Choices =>
        [new("Choose", ""), .. _learners.Select(l => new SelectListItem($"{l.Name}, {l.Code}", $"{l.Id}"))];

    /// <summary>The services that it can be the same as, and which is chosen: the only one where nobody has chosen yet.</summary>
    public IEnumerable<(JoinedService Other, bool IsChosen)> SameAs(JoinedService service)
    {
        var others = Both!.Situation.Stays.Where(s => JoinRules.Matches(service, s)).ToList();
        var chosen = Input.Same.TryGetValue(service.Id, out var same) ? same : others.Count == 1 ? others[0].Id : 0;
        return others.Select(o => (o, o.Id == chosen));
    }

    public Task OnGetAsync(CancellationToken stop) => LoadAsync(stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = await join.RunAsync(caller.Value, Operation, Input with { Doubled = Doubled ?? 0, Stays = Stays ?? 0 }, stop);
        if (outcome.Value is { } saved)
        {
            TempData["Done"] = $"Joined: {Say.Count(saved.Rows, "row")} went over.";
            return Redirect("/settings/entered-twice");
        }
        await LoadAsync(stop);
        return this.Refuse(outcome.Problems);
    }

    private async Task LoadAsync(CancellationToken stop)
    {
        (_learners, Joined) = await join.ReadAsync(caller.Scope, stop);
        if (Doubled is { } doubled && Stays is { } stays && doubled != stays)
            Both = await join.PageAsync(caller.Scope, doubled, stays, stop);
    }
}
