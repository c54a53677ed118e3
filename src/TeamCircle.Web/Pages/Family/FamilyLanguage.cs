using TeamCircle.Core.Family;

namespace TeamCircle.Web.Pages.Family;

/// <summary>In which language somebody reads the family's page: as last chosen in this browser, else as the browser asks, else in English.</summary>
internal static class FamilyLanguage
{
    public const string Cookie = "family-language", Choice = "in";

    private const string Spanish = "es", English = "en";

    public static string Code(Language language) => language == Language.Spanish ? Spanish : English;

    /// <summary>A choice in the address is kept for a year.</summary>
    public static Language Of(HttpContext http)
    {
        var chosen = http.Request.Query[Choice].ToString();
        if (chosen is Spanish or English)
            http.Response.Cookies.Append(Cookie, chosen, new() { HttpOnly = true, Secure = http.Request.IsHttps, SameSite = SameSiteMode.Lax, MaxAge = TimeSpan.FromDays(365), Path = "/", IsEssential = true });
        else
            chosen = http.Request.Cookies[Cookie] ?? FirstAsked(http.Request.Headers.AcceptLanguage.ToString());
        return chosen == Spanish ? Language.Spanish : Language.English;
    }

    private static string FirstAsked(string accepted) => accepted.TrimStart().StartsWith(Spanish, StringComparison.OrdinalIgnoreCase) ? Spanish : English;
}
