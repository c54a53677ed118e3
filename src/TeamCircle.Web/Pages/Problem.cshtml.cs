using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages;

/// <summary>What a person sees in place of a page. Missing and forbidden read alike.</summary>
[IgnoreAntiforgeryToken] // a refused post is shown here too
[ResponseCache(NoStore = true)]
public sealed class ProblemModel(KeptForm kept, CurrentCaller caller) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int Status { get; set; }

    /// <summary>A form that came when the sign-in had ended, sealed; null for every other problem.</summary>
    public string? Kept => Status == StatusCodes.Status401Unauthorized ? kept.Seal(HttpContext) : null;

    /// <summary>What must be shown before that form can be sent; null where the whole sign-in is lacking, or there is no form.</summary>
    public LackingForm? Lacking => caller.Lacks is not Lack.Nothing && Kept is { } typed ? new(caller.Lacks, typed) : null;

    public string Heading => Status switch
    {
        401 => "Your sign-in has ended",
        403 or 404 => "There is no such page",
        400 => "This form has expired",
        413 => "This is too large",
        429 => "Too many requests from you",
        503 => "This page can't be shown now",
        409 => "Somebody else saved this first",
        _ => "Something went wrong on our side",
    };

    public string WhatToDo => Status switch
    {
        401 => "What you typed is kept for an hour. Sign in again to save it.",
        403 or 404 => "The address may be mistyped, or it is a page that you have no part in.",
        400 => "Go back, load the page again and send it once more. What you typed is still in the form when you go back.",
        413 => "What was sent is too large to be taken, so nothing was saved. Go back and send it in parts.",
        429 => "Wait a minute, then go on. What you typed is still in the form when you go back.",
        503 => "We could not write down that you opened it, so we did not show it. Try again in a minute; if it stays, tell your administrator.",
        409 => "What you typed is still in the form when you go back. Load the page again, see what stands now, and save once more if it should be otherwise.",
        _ => "Nothing that you had saved before is lost. Try again in a minute; if it stays, tell your administrator when it happened.",
    };
}
