using Microsoft.AspNetCore.StaticAssets;

namespace TeamCircle.Web.Startup;

/// <summary>What every answer tells the browser it may do: load from us alone, be framed by nobody, tell nobody where it came from.</summary>
internal static class Headers
{
    /// <summary>No inline script or style passes; data for scripts stand in JSON blocks.</summary>
    public const string ContentSecurityPolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; "
        + "worker-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    public static void UseSafeHeaders(this WebApplication app)
    {
        if (!app.Environment.IsDevelopment())
            app.UseHsts();
        app.Use((context, next) =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = ContentSecurityPolicy;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "no-referrer";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            context.Response.OnStarting(KeepNothing, context);
            headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=(), payment=(), usb=()";
            return next(context);
        });
    }

    /// <summary>No browser, proxy or disk keeps a page; our own static assets it may, and a calendar what it read, if it asks again each time.</summary>
    private static Task KeepNothing(object context)
    {
        var http = (HttpContext)context;
        var metadata = http.GetEndpoint()?.Metadata;
        if (metadata?.GetMetadata<StaticAssetDescriptor>() is null && (metadata?.GetMetadata<Feed.Marker>() is null || http.Response.StatusCode >= 400))
            http.Response.Headers.CacheControl = "no-store";
        return Task.CompletedTask;
    }
}
