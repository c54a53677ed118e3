using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using TeamCircle.Core.Account;
using TeamCircle.Core.People;
using TeamCircle.Data.History;

namespace TeamCircle.Web.Startup.Access;

/// <summary>
/// Stands before every page handler: looks the handler up in the access matrix, decides for this caller and this
/// learner, leaves the record of access, and only then lets the handler run.
/// </summary>
/// <remarks>Attributes on page handlers are ignored by the framework; this filter is asked for every one.</remarks>
internal sealed class AccessFilter(AccessMatrix matrix, CurrentCaller caller, OpenRecord open, TimeProvider clock) : IAsyncPageFilter
{
    public Task OnPageHandlerSelectionAsync(PageHandlerSelectedContext context) => Task.CompletedTask;

    public async Task OnPageHandlerExecutionAsync(PageHandlerExecutingContext context, PageHandlerExecutionDelegate next)
    {
        var line = matrix.Find(context.ActionDescriptor, context.HandlerMethod);
        context.Result = line switch
        {
            null => new NotFoundResult(),
            { IsOpenToAnyone: true } => null,
            _ when caller.AccountId is null => new ChallengeResult(),
            _ when line.Who.Any(g => AccessRules.OpensOwn(g, caller.Lacks)) => null,
            _ when caller.Lacks is not Lack.Nothing => Landing.ToWhatLacks(context.HttpContext, caller.Lacks),
            _ when caller.Find is null => new RedirectToPageResult("/Account/Agency"),
            _ => await OpenAsync(context.HttpContext, line, caller.Find),
        };
        if (context.Result is null)
            await next();
    }

    private async Task<IActionResult?> OpenAsync(HttpContext http, AccessLine line, Caller who)
    {
        var request = new OpenRecord.Request(
            line.Key, line.Subject, http.GetRouteValue("id")?.ToString(), line.Who, SignInTicket.Of(http.User)?.ReasonAt(clock.GetUtcNow()));
        Opened opened;
        try
        {
            opened = await open.RunAsync(who, request, http.RequestAborted);
        }
        catch (Exception unwritten) when (!http.RequestAborted.IsCancellationRequested)
        {
            Log(http, unwritten);
            return new StatusCodeResult(StatusCodes.Status503ServiceUnavailable); // not recorded: not shown
        }
        if (opened.Answer is Opening.NeedsReason)
            return new RedirectToPageResult("/Account/Reason", new { then = http.Request.Path.Value });
        if (opened.Answer is Opening.Refused)
            return Landing.IsElsewhere(http, who) ? new LocalRedirectResult(Landing.Of(who)) : new NotFoundResult();
        caller.Grant(opened.Scope!, opened.Learner);
        return null;
    }

    private static void Log(HttpContext http, Exception unwritten) =>
        http.RequestServices.GetRequiredService<ILogger<AccessFilter>>().LogError(unwritten, "The record of access could not be written; the page was not shown");
}
