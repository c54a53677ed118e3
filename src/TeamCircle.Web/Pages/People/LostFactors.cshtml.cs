using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>An administrator takes a person's lost second factors away, so that they can set up new ones.</summary>
public sealed class LostFactorsModel(CurrentCaller caller, ReadPeople read, RemovePersonsFactors remove, FreshSignIn fresh) : PageModel
{
    [BindProperty]
    public RemovePersonsFactors.Input Input { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public int Id { get; set; }

    public string Name { get; private set; } = "";

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, Id, stop) is not [var person])
            return NotFound();
        Name = person.Name;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (await OnGetAsync(stop) is not PageResult page)
            return NotFound();
        if (ModelState.IsValid && await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        if (!ModelState.IsValid)
            return page;
        var outcome = await remove.RunAsync(caller.Value, Id, Input, stop);
        if (outcome.Value is null)
            return this.Refuse(outcome.Problems);
        TempData["Done"] = $"The second step of {Name} is removed; they set up a new one when they sign in.";
        return Redirect($"/settings/people/{Id}");
    }
}
