using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Makes recovery codes anew and shows them once.</summary>
public sealed class RecoveryCodesModel(CurrentCaller caller, ReadFactors read, FreshSignIn fresh, BeginSignIn begin) : PageModel
{
    /// <summary>In the answer that made them and nowhere else; null otherwise.</summary>
    public IReadOnlyList<string>? Codes { get; private set; }

    public int Left { get; private set; }

    public FreshSignIn.Asks Asks => fresh.Of(HttpContext);

    /// <summary>Codes belong to a second step: who has none is led to where it is set up.</summary>
    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        var factors = await read.RunAsync(caller.AccountId!.Value, stop);
        Left = factors.CodesLeft;
        return factors.HasAny ? Page() : Redirect("/account/factors");
    }

    public async Task<IActionResult> OnPostAsync([FromServices] MakeRecoveryCodes make, CancellationToken stop)
    {
        if (await OnGetAsync(stop) is not PageResult page)
            return Redirect("/account/factors");
        if (await fresh.CheckAsync(HttpContext, stop) is { } stale)
            ModelState.AddProblems([stale], "");
        else
            Codes = await make.RunAsync(caller.AccountId!.Value, begin.PlaceOf(HttpContext), stop);
        return page;
    }
}
