using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Net.Http.Headers;
using TeamCircle.Data.Account;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Startup;

/// <summary>The secret address at which other calendars read a person's own visits, without a sign-in.</summary>
internal static class Feed
{
    /// <summary>Marks the address: its answer may be kept by who asked, and it has a limit of its own.</summary>
    public sealed class Marker;

    public static void MapFeed(this WebApplication app) => app.MapGet("/feed/{key}.ics", AnswerAsync).WithMetadata(new Marker());

    private static async Task<IResult> AnswerAsync(string key, HttpContext http, ReadFeed find, ReadFeedVisits read, CancellationToken stop)
    {
        if (await find.FindAsync(key, stop) is not { } caller)
            return Results.NotFound();
        var calendar = Encoding.UTF8.GetBytes(await read.RunAsync(caller, stop));
        var tag = new EntityTagHeaderValue($"\"{Base64Url.EncodeToString(SHA256.HashData(calendar))}\"");
        http.Response.Headers.CacheControl = "private, no-cache";
        return Results.Bytes(calendar, "text/calendar; charset=utf-8", entityTag: tag); // answers 304 to who holds this tag
    }
}
