using System.Net;
using Microsoft.AspNetCore.HttpOverrides;
using TeamCircle.Data;

namespace TeamCircle.Web.Startup;

/// <summary>
/// The server in front of the portal that ends https, named by the setting <c>Proxy</c>: addresses, with spaces between.
/// What anybody else says about where a request came from is not believed.
/// </summary>
internal static class Proxy
{
    public static void UseProxy(this WebApplication app)
    {
        var named = (app.Configuration["Proxy"] ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (named.Length == 0)
            return;
        var options = new ForwardedHeadersOptions { ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto };
        options.KnownProxies.Clear();
        options.KnownIPNetworks.Clear();
        foreach (var address in named)
            options.KnownProxies.Add(Parse(address));
        app.UseForwardedHeaders(options);
    }

    private static IPAddress Parse(string address) => IPAddress.TryParse(address, out var parsed)
        ? parsed
        : throw new StartupFailure($"The setting Proxy holds '{address}', which is no network address: write for example Proxy=10.0.0.5.");
}
