using System.Diagnostics;
using System.Text.Json;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Mail;

/// <summary>A mail as a parser reads it that is none of the portal's own: postal-mime, by Node (read-mail.mjs).</summary>
internal sealed record ParsedMail(
    string Subject, string MessageId, ParsedAddress From, ParsedAddress[] To, ParsedAddress[]? Cc, ParsedAddress[]? Bcc, string Text, string Html,
    ParsedHeader[] Headers)
{
    public IEnumerable<string> Header(string name) => Headers.Where(h => h.Key == name).Select(h => h.Value);
}

internal sealed record ParsedAddress(string Name, string? Address);

internal sealed record ParsedHeader(string Key, string Value);

internal static class ReadMime
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static async Task<ParsedMail[]> AllAsync(IEnumerable<string> mails)
    {
        var start = new ProcessStartInfo("node", [Path.Combine(AppContext.BaseDirectory, "Mail", "read-mail.mjs"), Packages()])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        using var node = Process.Start(start)!;
        await node.StandardInput.WriteAsync(JsonSerializer.Serialize(mails.Select(m => Convert.ToBase64String(System.Text.Encoding.Latin1.GetBytes(m)))));
        node.StandardInput.Close();
        var answer = await node.StandardOutput.ReadToEndAsync();
        await node.WaitForExitAsync();
        Assert.Equal(0, node.ExitCode);
        return JsonSerializer.Deserialize<ParsedMail[]>(answer, Json)!;
    }

    /// <summary>Where the build has put the packages of the pages, this parser among them.</summary>
    private static string Packages() => Path.Combine(SourceTree.Root, "src", "TeamCircle.Web");
}
