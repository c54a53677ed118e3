using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>Everybody on the agency's list.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadPeople read, ReadStandings standings) : PageModel
{
    private IReadOnlyDictionary<int, AccountStanding> _standings = new Dictionary<int, AccountStanding>();

    public IReadOnlyList<ListedPerson> People { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken stop)
    {
        People = await read.RunAsync(caller.Scope, null, stop);
        _standings = await standings.RunAsync(caller.Value.AgencyId, stop);
    }

    public string RolesOf(ListedPerson person) => person.HasEnded ? "not on the list any more"
        : person.Roles.Where(r => r.HoldsOn(caller.Value.Today)).Select(r => Words.Of(r.Role)).ToList() is { Count: > 0 } roles ? Say.List(roles)
        : "none today";

    public string AccountOf(ListedPerson person) => _standings.GetValueOrDefault(person.Id) switch
    {
        { HasJoined: true, SignIns: 0 } => "has joined",
        { HasJoined: true, SignIns: var n } => $"has joined; {Say.Count(n, "sign-in")} now",
        { LinkEndsAt: not null } => "has a link to join",
        _ => "has not joined",
    };
}
