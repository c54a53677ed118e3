using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
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

    public (Phrase Heading, Phrase WhatToDo) Words => Status switch
    {
        401 => (ProblemWords.Ended, ProblemWords.EndedDo),
        403 or 404 => (ProblemWords.Missing, ProblemWords.MissingDo),
        400 => (ProblemWords.Expired, ProblemWords.ExpiredDo),
        413 => (ProblemWords.TooLarge, ProblemWords.TooLargeDo),
        429 => (ProblemWords.TooMany, ProblemWords.TooManyDo),
        503 => (ProblemWords.NotNow, ProblemWords.NotNowDo),
        409 => (ProblemWords.SavedFirst, ProblemWords.SavedFirstDo),
        _ => (ProblemWords.Ours, ProblemWords.OursDo),
    };
}
