using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>Puts a person on the list and shows the link by which they join, once.</summary>
public sealed class InviteModel(CurrentCaller caller, InvitePerson invite, MakeLink makeLink, FreshSignIn fresh) : PageModel
{
    [BindProperty(Name = "operation")]
    public Guid Operation { get; set; }

    [BindProperty]
    public InvitePerson.Input Input { get; set; } = new();

    public ShownLink? Link { get; private set; }

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        if (!ModelState.IsValid)
            return Page();
        var invited = await invite.RunAsync(caller.Value, Operation, Input, stop);
        if (invited.Value is null)
        {
            ModelState.AddProblems(invited.Problems, nameof(Input));
            return Page();
        }
        // Not after a redirect: the link is in this answer and nowhere else. Sending the form again makes another link.
        var made = await makeLink.RunAsync(caller.Value, invited.Value.Person, stop);
        Link = ShownLink.Of(Input.Name, made.Value!, Request);
        return Page();
    }
}
