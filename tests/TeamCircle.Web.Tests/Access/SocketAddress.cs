using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;

namespace TeamCircle.Web.Tests.Access;

/// <summary>Gives each request the network address that a socket would have, before the portal sees it: a test server has no sockets.</summary>
internal sealed class SocketAddress(Func<HttpContext, string> of) : IStartupFilter
{
    public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
    {
        app.Use((http, go) =>
        {
            http.Connection.RemoteIpAddress = IPAddress.Parse(of(http));
            return go(http);
        });
        next(app);
    };
}
