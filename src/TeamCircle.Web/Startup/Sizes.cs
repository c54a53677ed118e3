using Microsoft.AspNetCore.Http.Metadata;

namespace TeamCircle.Web.Startup;

/// <summary>
/// Refuses what is announced as too large before any of it is read, with 413. Left to the server, the reading of the form's proof breaks off
/// first, and the page says that the form did not come from us.
/// </summary>
/// <remarks>What comes without its length is cut off by the server itself at the same size.</remarks>
internal static class Sizes
{
    /// <summary>In bytes, where a page or address says nothing of its own: the server's own limit.</summary>
    public const long Usual = 30_000_000;

    public static void UseSizes(this WebApplication app) => app.Use((http, next) =>
    {
        var most = http.GetEndpoint()?.Metadata.GetMetadata<IRequestSizeLimitMetadata>()?.MaxRequestBodySize ?? Usual;
        if (http.Request.ContentLength is not { } length || length <= most)
            return next(http);
        // The page that says so is made without what was sent.
        (http.Request.Body, http.Request.ContentLength, http.Request.ContentType) = (Stream.Null, 0, null);
        http.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
        return Task.CompletedTask;
    });
}
