using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;

namespace TeamCircle.Web.Tests;

/// <summary>Notes each address that a browser asks the portal for, or is led to: a name in one lies in histories and proxies.</summary>
internal sealed class AddressWatch(ConcurrentBag<string> addresses) : IStartupFilter
{
    public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
    {
        app.Use(async (http, go) =>
        {
            addresses.Add(Uri.UnescapeDataString($"{http.Request.Path}{http.Request.QueryString}"));
            await go(http);
            if (http.Response.Headers.Location is [{ } led])
                addresses.Add(Uri.UnescapeDataString(led));
        });
        next(app);
    };
}
