using System.Globalization;
using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>
/// A cookie that remembers which accounts have signed in from this browser, so that a stranger's wrong tries elsewhere
/// can't lock its people out. It opens nothing: the password is asked all the same.
/// </summary>
public sealed class KnownBrowsers(IDataProtectionProvider protection, IWebHostEnvironment environment, IConfiguration configuration)
{
    private const int Most = 5;
    private readonly ITimeLimitedDataProtector _protector = protection.CreateProtector("TeamCircle.KnownBrowsers").ToTimeLimitedDataProtector();
    private static readonly TimeSpan Kept = TimeSpan.FromDays(365);

    private readonly bool _secure = !PlainHttp.IsAllowed(environment, configuration);

    private string Name => (_secure ? "__Host-" : "") + "teamcircle-known";

    /// <summary>Where a password is typed.</summary>
    public Place PlaceOf(HttpContext http) =>
        new(NetworkAddress.Of(http), [.. Read(http)]);

    public void Remember(HttpContext http, long account)
    {
        var mark = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        var kept = Read(http).Where(k => k.Account != account).Prepend(new KnownBrowser(account, mark)).Take(Most);
        var text = string.Join(' ', kept.Select(k => string.Create(CultureInfo.InvariantCulture, $"{k.Account}:{k.Mark}")));
        http.Response.Cookies.Append(Name, _protector.Protect(text, Kept), new CookieOptions
        {
            HttpOnly = true,
            Secure = _secure,
            SameSite = SameSiteMode.Strict,
            Path = "/",
            MaxAge = Kept,
            IsEssential = true,
        });
    }

    private IEnumerable<KnownBrowser> Read(HttpContext http)
    {
        if (http.Request.Cookies[Name] is not { } cookie || Unprotect(cookie) is not { } text)
            return [];
        return text.Split(' ').Select(one => one.Split(':')).Select(p => new KnownBrowser(long.Parse(p[0], CultureInfo.InvariantCulture), p[1]));
    }

    private string? Unprotect(string cookie)
    {
        try
        {
            return _protector.Unprotect(cookie);
        }
        catch (CryptographicException) // old, or not ours
        {
            return null;
        }
    }
}
