using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Account;

namespace TeamCircle.Web.Startup;

/// <summary>
/// A form that was sent when the sign-in had ended, or lacks its second step: it travels, sealed, through the sign-in page and is then sent as it
/// was typed. Nothing of it is stored.
/// </summary>
/// <remarks>
/// The form keeps its own proof that it came from us, which is bound to the account that opened it: somebody else who
/// signs in on the same device cannot send it.
/// </remarks>
public sealed class KeptForm(IDataProtectionProvider protection, KnownBrowsers browsers)
{
    private static readonly TimeSpan Span = TimeSpan.FromHours(1);
    private readonly ITimeLimitedDataProtector _protector = protection.CreateProtector("TeamCircle.KeptForm").ToTimeLimitedDataProtector();

    /// <param name="Address">Where the form goes.</param>
    public sealed record Typed(string Address, IReadOnlyList<KeyValuePair<string, string>> Fields);

    /// <summary>Sealed for the sign-in page; null where the request brought no form.</summary>
    public string? Seal(HttpContext http)
    {
        if (!http.Request.HasFormContentType)
            return null;
        var sent = http.Features.Get<IStatusCodeReExecuteFeature>();
        var fields = http.Request.Form.SelectMany(f => f.Value.Select(v => new KeyValuePair<string, string>(f.Key, v ?? "")));
        var typed = new Typed($"{sent?.OriginalPath ?? http.Request.Path}{sent?.OriginalQueryString}", [.. fields]);
        return _protector.Protect(JsonSerializer.Serialize(typed), Span);
    }

    /// <summary>Null where it is none of ours, or was kept for too long.</summary>
    public Typed? Open(string? kept)
    {
        if (string.IsNullOrEmpty(kept))
            return null;
        try
        {
            return JsonSerializer.Deserialize<Typed>(_protector.Unprotect(kept));
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    /// <summary>Whether somebody who was signed in on this browser sends a form that they can no longer send.</summary>
    internal bool IsLateForm(HttpContext http) =>
        HttpMethods.IsPost(http.Request.Method)
        && http.Features.Get<IStatusCodeReExecuteFeature>() is null
        && http.Request.ContentType?.StartsWith("application/x-www-form-urlencoded", StringComparison.OrdinalIgnoreCase) == true
        && http.GetEndpoint()?.Metadata.GetMetadata<PageActionDescriptor>() is { } page
        && !page.ViewEnginePath.StartsWith("/Account/", StringComparison.Ordinal)
        && http.RequestServices.GetRequiredService<CurrentCaller>() is { AccountId: null } or { Lacks: Lack.SecondStep or Lack.Factor }
        && browsers.PlaceOf(http).Known.Count > 0;
}

internal static class KeptForms
{
    /// <summary>Answers a late form with the sign-in page, before anything refuses it.</summary>
    public static void UseKeptForms(this WebApplication app) => app.Use((http, next) =>
    {
        if (!http.RequestServices.GetRequiredService<KeptForm>().IsLateForm(http))
            return next(http);
        http.Response.StatusCode = StatusCodes.Status401Unauthorized;
        return Task.CompletedTask;
    });
}
