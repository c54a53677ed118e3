using System.Collections.Concurrent;
using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using TeamCircle.Data.History;

namespace TeamCircle.Web.Startup;

/// <summary>How many requests we answer in a minute; more get 429. Static assets and health are not counted.</summary>
/// <remarks>
/// A person at work opens a page every few seconds at most; a script that reads one record after the other is stopped
/// within a minute. Many people of an agency may sit behind one network address, so that one counts sign-ins more kindly.
/// </remarks>
internal sealed record Limits
{
    /// <summary>By one account, on all its devices.</summary>
    public int PersonEachMinute { get; init; } = 180;

    /// <summary>By everybody at one network address who is not signed in.</summary>
    public int AddressEachMinute { get; init; } = 120;

    /// <summary>Calendars read, or addresses of them tried, from one network address; one that fetches for many people asks again.</summary>
    public int FeedsEachMinute { get; init; } = 60;

    /// <summary>Asked and sent by one account's devices.</summary>
    public int DevicesEachMinute { get; init; } = 240;

    /// <summary>Passwords and links tried from one network address.</summary>
    public int SignInsEachMinute { get; init; } = 20;

    private static readonly HashSet<string> Doors = ["/Account/SignIn", "/Account/SecondStep", "/Account/Join", "/Account/NewPassword", "/Account/NewEmail"];

    public static void Add(WebApplicationBuilder builder)
    {
        var limits = builder.Configuration.GetSection("Limits").Get<Limits>() ?? new Limits();
        builder.Services.AddRateLimiter(o =>
        {
            o.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            o.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(limits.PartitionOf);
            var told = new ConcurrentDictionary<long, DateTimeOffset>(); // as many as there are accounts, at most
            o.OnRejected = async (rejected, stop) =>
            {
                if (rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var wait))
                    rejected.HttpContext.Response.Headers.RetryAfter = ((int)Math.Ceiling(wait.TotalSeconds)).ToString(CultureInfo.InvariantCulture);
                await NoteAsync(rejected.HttpContext, told, stop);
            };
        });
    }

    /// <summary>Once a minute for one account: an administrator sees it under Settings. Whether it can be written or not, the page is refused.</summary>
    private static async Task NoteAsync(HttpContext http, ConcurrentDictionary<long, DateTimeOffset> told, CancellationToken stop)
    {
        if (SignInTicket.Of(http.User) is not { Agency: { } agency, Person: { } person } ticket)
            return;
        var now = http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow();
        var last = told.GetOrAdd(ticket.Account, DateTimeOffset.MinValue);
        if (now - last < TimeSpan.FromMinutes(1) || !told.TryUpdate(ticket.Account, now, last))
            return;
        try
        {
            await http.RequestServices.GetRequiredService<NoteTooMany>().RunAsync(agency, person, NetworkAddress.Of(http), stop);
        }
        catch (Exception unwritten) when (!stop.IsCancellationRequested)
        {
            http.RequestServices.GetRequiredService<ILogger<Limits>>().LogError(unwritten, "That somebody opened too many pages could not be noted");
        }
    }

    private RateLimitPartition<string> PartitionOf(HttpContext http)
    {
        if (http.GetEndpoint()?.Metadata.GetMetadata<Feed.Marker>() is not null)
            return Window($"feed {NetworkAddress.Of(http)}", FeedsEachMinute);
        if (http.GetEndpoint()?.Metadata.GetMetadata<DeviceDoor.Marker>() is not null)
            return Window($"device {SignInTicket.Of(http.User)?.Account.ToString(CultureInfo.InvariantCulture) ?? NetworkAddress.Of(http)}", DevicesEachMinute);
        if (http.Features.Get<IStatusCodeReExecuteFeature>() is not null || http.GetEndpoint()?.Metadata.GetMetadata<PageActionDescriptor>() is not { } page)
            return RateLimitPartition.GetNoLimiter("");
        if (HttpMethods.IsPost(http.Request.Method) && Doors.Contains(page.ViewEnginePath))
            return Window($"door {NetworkAddress.Of(http)}", SignInsEachMinute);
        return SignInTicket.Of(http.User) is { } ticket
            ? Window($"account {ticket.Account}", PersonEachMinute)
            : Window($"address {NetworkAddress.Of(http)}", AddressEachMinute);
    }

    private static RateLimitPartition<string> Window(string key, int most) => RateLimitPartition.GetSlidingWindowLimiter(
        key, _ => new SlidingWindowRateLimiterOptions { PermitLimit = most, Window = TimeSpan.FromMinutes(1), SegmentsPerWindow = 6, QueueLimit = 0 });
}
