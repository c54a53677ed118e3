using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;
using TeamCircle.Core.People;

namespace TeamCircle.Web.Startup.Access;

/// <summary>Stands before every mapped address that is no page: it needs a line in the access matrix too.</summary>
internal static class EndpointAccess
{
    /// <summary>The pattern of an address that the matrix must name; null for pages, whose filter asks for itself.</summary>
    public static string? PatternOf(Endpoint? endpoint) =>
        endpoint is RouteEndpoint { RoutePattern.RawText: { } pattern } && endpoint.Metadata.GetMetadata<PageActionDescriptor>() is null
            ? "/" + pattern.TrimStart('/') : null;

    public static void UseEndpointAccess(this WebApplication app) => app.Use(async (http, next) =>
    {
        if (PatternOf(http.GetEndpoint()) is { } pattern && !IsOpen(http, pattern))
            await RefuseAsync(http);
        else
            await next(http);
    });

    /// <summary>A device is told when nobody is signed in; whatever else it may not have does not exist, as everywhere.</summary>
    private static Task RefuseAsync(HttpContext http)
    {
        http.Response.StatusCode = StatusCodes.Status404NotFound;
        if (http.GetEndpoint()?.Metadata.GetMetadata<DeviceDoor.Marker>() is null)
            return Task.CompletedTask;
        var caller = http.RequestServices.GetRequiredService<CurrentCaller>();
        var refusal = caller.AccountId is null ? DeviceDoor.Refuse(StatusCodes.Status401Unauthorized, "Nobody is signed in.")
            : caller.Lacks is not Lack.Nothing ? DeviceDoor.Refuse(StatusCodes.Status401Unauthorized, "The second step of signing in is missing.")
            : DeviceDoor.Refuse(StatusCodes.Status404NotFound, "There is nothing here.");
        return refusal.ExecuteAsync(http);
    }

    private static bool IsOpen(HttpContext http, string pattern)
    {
        var line = http.RequestServices.GetRequiredService<AccessMatrix>().Find(pattern, "", http.Request.Method);
        if (line is null || line.Subject is not Subject.None)
            return false; // an address about a learner is a page, whose filter leaves the record of access
        var caller = http.RequestServices.GetRequiredService<CurrentCaller>();
        return line.IsOpenToAnyone
            || (caller.AccountId is not null && line.Who.Any(g => AccessRules.OpensOwn(g, caller.Lacks)))
            || (caller is { Lacks: Lack.Nothing, Find: { } who } && AccessRules.FirstOpen(line.Who, who, null) is not null);
    }
}
