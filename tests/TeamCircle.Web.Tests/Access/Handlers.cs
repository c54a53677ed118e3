using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.Infrastructure;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.RazorPages.Infrastructure;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using Microsoft.AspNetCore.StaticAssets;
using Microsoft.Extensions.DependencyInjection;

namespace TeamCircle.Web.Tests.Access;

/// <summary>Everything that the running portal answers to, as the framework itself knows it.</summary>
public static class Handlers
{
    /// <summary>"GET /Account/SignIn" for every page handler, "GET /health/live" for every mapped address that is no page.</summary>
    public static async Task<IReadOnlySet<string>> AllAsync(PortalApp portal)
    {
        var found = new HashSet<string>();
        foreach (var page in await PagesAsync(portal))
        {
            foreach (var handler in page.HandlerMethods)
                found.Add($"{handler.HttpMethod.ToUpperInvariant()} {page.ViewEnginePath} {handler.Name}".TrimEnd());
            if (page.HandlerMethods.Count == 0)
                found.Add($"GET {page.ViewEnginePath}");
        }
        foreach (var address in Addresses(portal))
        {
            foreach (var verb in address.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods ?? ["GET"])
                found.Add($"{verb} /{address.RoutePattern.RawText!.TrimStart('/')}");
        }
        return found;
    }

    public static async Task<IReadOnlyList<CompiledPageActionDescriptor>> PagesAsync(PortalApp portal)
    {
        var loader = portal.Services.GetRequiredService<PageLoader>();
        var pages = new List<CompiledPageActionDescriptor>();
        foreach (var page in portal.Services.GetRequiredService<IActionDescriptorCollectionProvider>().ActionDescriptors.Items.OfType<PageActionDescriptor>())
            pages.Add(await loader.LoadAsync(page, EndpointMetadataCollection.Empty));
        return pages;
    }

    /// <summary>The address of a page's handler, with a value in place of each of its route's parameters.</summary>
    public static string AddressOf(CompiledPageActionDescriptor page, string handler, Func<string, string> valueOf)
    {
        var parts = RoutePatternFactory.Parse(page.AttributeRouteInfo!.Template!).PathSegments
            .Select(s => string.Concat(s.Parts.Select(p => p is RoutePatternParameterPart parameter ? valueOf(parameter.Name) : ((RoutePatternLiteralPart)p).Content)));
        return "/" + string.Join('/', parts) + (handler.Length == 0 ? "" : $"?handler={handler}");
    }

    // Static assets are open to anyone, by name; the second is how they are served from a folder that was not published.
    private static bool IsStaticAsset(RouteEndpoint endpoint) =>
        endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is not null || endpoint.RoutePattern.RawText == "{**path:file}";

    private static IEnumerable<RouteEndpoint> Addresses(PortalApp portal) =>
        portal.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<PageActionDescriptor>() is null && !IsStaticAsset(e));
}
