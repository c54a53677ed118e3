using System.Text.RegularExpressions;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Tests.Access;

/// <summary>Filling in forms as a browser does, with the hidden proof that the form came from us.</summary>
public static partial class Forms
{
    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex TokenField();

    /// <summary>Sends a form to the page, with the token of a form that <paramref name="tokenFrom"/> shows.</summary>
    public static async Task<HttpResponseMessage> SendFormAsync(
        this HttpClient browser, string path, IReadOnlyDictionary<string, string> fields, string? tokenFrom = null)
    {
        var token = await browser.TokenAsync(tokenFrom ?? path);
        using var form = new FormUrlEncodedContent(fields.Append(new("__RequestVerificationToken", token)));
        return await browser.PostAsync(new Uri(path, UriKind.Relative), form);
    }

    public static async Task<string> TokenAsync(this HttpClient browser, string path)
    {
        var page = await browser.GetStringAsync(new Uri(path, UriKind.Relative));
        return TokenField().Match(page) is { Success: true } found ? found.Groups[1].Value : throw new InvalidOperationException($"{path} shows no form.");
    }

    public static Task<HttpResponseMessage> SignInAsync(this HttpClient browser, string email, string password = CreateDemonstrationAccounts.Passphrase, string then = "") =>
        browser.SendFormAsync("/sign-in", new Dictionary<string, string> { ["Input.Email"] = email, ["Input.Password"] = password, ["Then"] = then });

    /// <summary>Signs in where the demonstration's accounts are not let in: by the password, and then by one of the codes of <see cref="AgencyPortal.GiveCodesAsync"/>, if one is asked for.</summary>
    public static async Task SignInWithCodeAsync(this HttpClient browser, string email)
    {
        using var first = await browser.SignInAsync(email);
        var at = first.Headers.Location?.OriginalString ?? first.RequestMessage!.RequestUri!.AbsolutePath;
        if (!at.StartsWith("/sign-in/second-step", StringComparison.Ordinal))
            return;
        using var second = await browser.SendFormAsync("/sign-in/second-step", new Dictionary<string, string> { ["Code"] = AgencyPortal.NextCode(email) });
        if ((int)second.StatusCode >= 400)
            throw new InvalidOperationException($"The second step of {email} was answered by {second.StatusCode}.");
    }
}
