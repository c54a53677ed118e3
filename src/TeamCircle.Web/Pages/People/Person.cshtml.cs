using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>One person on the list: roles with their days, account, link, sign-ins.</summary>
public sealed class PersonModel(CurrentCaller caller, ReadPeople read, ReadStandings standings, FreshSignIn fresh) : PageModel
{
    private AccountStanding? _standing;

    [BindProperty(Name = "operation")]
    public Guid Operation { get; set; }

    [BindProperty(SupportsGet = true)]
    public int Id { get; set; }

    public GiveRole.Input Given { get; private set; } = new();
    public ListedPerson Person { get; private set; } = null!;
    public ShownLink? Link { get; private set; }
    public bool HasJoined => _standing is { HasJoined: true };
    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    public string AccountWords => _standing switch
    {
        { HasJoined: true, SignIns: var n } => $"Has joined; {Say.Count(n, "sign-in")} at this moment.",
        { LinkEndsAt: not null } => "Has a link to join that was not used yet.",
        _ => "Has not joined.",
    };

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if ((await read.RunAsync(caller.Scope, Id, stop)) is not [var person])
            return NotFound();
        Person = person;
        _standing = (await standings.RunAsync(caller.Value.AgencyId, stop)).GetValueOrDefault(Id);
        return Page();
    }

    public async Task<IActionResult> OnPostGiveRoleAsync(
        [FromServices] GiveRole give, [Bind(Prefix = nameof(Given))] GiveRole.Input given, CancellationToken stop)
    {
        Given = given;
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        return ModelState.IsValid
            ? await AnswerAsync(await give.RunAsync(caller.Value, Operation, given with { Person = Id }, stop), "The role is given.", nameof(Given), stop)
            : await OnGetAsync(stop);
    }

    public async Task<IActionResult> OnPostEndRoleAsync([FromServices] EndRole end, [Bind(Prefix = "Ended")] EndRole.Input ended, CancellationToken stop) =>
        await AnswerAsync(await end.RunAsync(caller.Value, Operation, ended, stop), "The role has its last day.", "", stop);

    public async Task<IActionResult> OnPostEndAsync([FromServices] EndPerson end, int version, CancellationToken stop) =>
        await AnswerAsync(await end.RunAsync(caller.Value, Operation, new(Id, version, Restore: false), stop), "Off the list, from now on.", "", stop);

    public async Task<IActionResult> OnPostRestoreAsync([FromServices] EndPerson end, int version, CancellationToken stop) =>
        await AnswerAsync(await end.RunAsync(caller.Value, Operation, new(Id, version, Restore: true), stop), "Back on the list.", "", stop);

    public async Task<IActionResult> OnPostSignOutAsync([FromServices] EndPersonsSignIns end, CancellationToken stop)
    {
        var outcome = await end.RunAsync(caller.Value, Id, stop);
        return await AnswerAsync(outcome, $"{Say.Count(outcome.Value?.Ended ?? 0, "sign-in")} ended.", "", stop);
    }

    public async Task<IActionResult> OnPostLinkAsync([FromServices] MakeLink make, CancellationToken stop)
    {
        if (await OnGetAsync(stop) is not PageResult page)
            return NotFound();
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        if (!ModelState.IsValid)
            return page;
        var made = await make.RunAsync(caller.Value, Id, stop);
        if (made.Value is { } link)
            Link = ShownLink.Of(Person.Name, link, Request);
        else
            ModelState.AddProblems(made.Problems, "");
        return page;
    }

    public string DaysOf(ListedRole role) => role.NeverHeld ? "taken back, never held"
        : role.ToDay is { } last ? Say.Dates(role.FromDay, last) : $"from {Say.Date(role.FromDay)}";

    public bool CanEnd(ListedRole role) => !role.NeverHeld && (role.ToDay is null || role.ToDay >= caller.Value.Today);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, string done, string prefix, CancellationToken stop) where T : class
    {
        if (outcome.Value is not null)
        {
            TempData["Done"] = done;
            return RedirectToPage(new { id = Id });
        }
        if (outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        ModelState.AddProblems(outcome.Problems, prefix);
        return await OnGetAsync(stop);
    }
}
