using System.Text;
using System.Text.Encodings.Web;
using TeamCircle.Core.Family;
using TeamCircle.Data;

namespace TeamCircle.Web.Startup;

/// <summary>
/// What is answered while the database is away, restarting or full: 503, and that nothing was said to be saved. It needs no database, and so neither a
/// sign-in nor the frame of the other pages; and as nobody knows who asks, it speaks both languages.
/// </summary>
internal static partial class DatabaseAwayPage
{
    /// <summary>After how many seconds a program may ask again.</summary>
    private const string Pause = "5";

    /// <summary>Before everything that asks the database, and inside of what adds the headers.</summary>
    public static void UseDatabaseAwayPage(this WebApplication app) => app.Use(async (http, next) =>
    {
        try
        {
            await next(http);
        }
        catch (Exception fault) when (DatabaseAway.Is(fault) && !http.Response.HasStarted && !http.RequestAborted.IsCancellationRequested)
        {
            Away(app.Logger, fault);
            await AnswerAsync(http);
        }
    });

    /// <summary>RFC 9110, section 15.6.4: the same may be asked for again.</summary>
    private static async Task AnswerAsync(HttpContext http)
    {
        var isOfADevice = http.GetEndpoint()?.Metadata.GetMetadata<DeviceDoor.Marker>() is not null;
        http.Response.Headers.ContentLength = null; // of what was begun; the headers that every answer has stay
        http.Response.Headers.RetryAfter = Pause;
        if (isOfADevice)
        {
            await DeviceDoor.Refuse(StatusCodes.Status503ServiceUnavailable, "The database can't be reached now. Keep what you have, and send it again.").ExecuteAsync(http);
            return;
        }
        http.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
        http.Response.ContentType = "text/html; charset=utf-8";
        await http.Response.WriteAsync(Page(HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method)), Encoding.UTF8, http.RequestAborted);
    }

    private static string Page(bool isReading)
    {
        var (heading, words) = isReading ? (FamilyGlossary.AwayForReading, FamilyGlossary.AwayTryAgain) : (FamilyGlossary.AwayForSaving, FamilyGlossary.AwaySendAgain);
        return $"""
            <!doctype html>
            <html lang="en">
            <head>
              <meta charset="utf-8">
              <meta name="viewport" content="width=device-width, initial-scale=1">
              <meta name="color-scheme" content="light dark">
              <title>{In(heading, Language.English)} - TeamCircle</title>
              <link rel="icon" href="/favicon.svg" type="image/svg+xml">
              <link rel="stylesheet" href="/css/site.css">
              <link rel="stylesheet" href="/css/parts.css">
            </head>
            <body>
              <main id="content">
                <div class="head"><h1>{In(heading, Language.English)}</h1><p>{In(words, Language.English)}</p></div>
                <div class="head" lang="es"><h2>{In(heading, Language.Spanish)}</h2><p>{In(words, Language.Spanish)}</p></div>
              </main>
            </body>
            </html>
            """;
    }

    private static string In(Phrase phrase, Language language) => HtmlEncoder.Default.Encode(phrase.In(language));

    [LoggerMessage(LogLevel.Error, "The database could not be asked; 503 was answered")]
    private static partial void Away(ILogger log, Exception fault);
}
