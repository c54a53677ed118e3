using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.Filters;

namespace TeamCircle.Web.Tests.Access;

/// <summary>Tells a test, in a header, which pages' handlers ran; and lets one fail on request.</summary>
/// <remarks>Behind the access filter: what that stops never gets here. A refusal's own page is named too.</remarks>
public sealed class HandlerWatch(Action runs) : IAsyncPageFilter, IOrderedFilter
{
    public const string Ran = "X-Ran";
    public const string Fail = "X-Fail";

    public int Order => int.MaxValue;

    public Task OnPageHandlerSelectionAsync(PageHandlerSelectedContext context) => Task.CompletedTask;

    public Task OnPageHandlerExecutionAsync(PageHandlerExecutingContext context, PageHandlerExecutionDelegate next)
    {
        if (context.HttpContext.Request.Headers.ContainsKey(Fail) && context.ActionDescriptor.ViewEnginePath != "/Problem")
            throw new InvalidOperationException("A test asked for this.");
        runs();
        context.HttpContext.Response.Headers.Append(Ran, context.ActionDescriptor.ViewEnginePath);
        return next();
    }
}
