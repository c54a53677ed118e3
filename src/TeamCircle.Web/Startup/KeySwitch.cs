namespace TeamCircle.Web.Startup;

/// <summary>
/// Whether / and ? do something on this browser. A person who speaks to the machine, or whose hand slips, can turn them off
/// (WCAG 2.1.4); it holds for the browser, since it goes with the keyboard and not with the account.
/// </summary>
internal static class KeySwitch
{
    private const string Cookie = "keys", Off = "off";
    private static readonly TimeSpan Kept = TimeSpan.FromDays(400);

    public static bool IsOn(HttpContext http) => http.Request.Cookies[Cookie] != Off;

    public static void Set(HttpContext http, bool on)
    {
        if (on)
            http.Response.Cookies.Delete(Cookie);
        else
            http.Response.Cookies.Append(Cookie, Off, new() { HttpOnly = true, Secure = http.Request.IsHttps, SameSite = SameSiteMode.Lax, MaxAge = Kept, IsEssential = true });
    }
}
