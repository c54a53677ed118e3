namespace TeamCircle.Web.Startup;

/// <summary>A browser in a few words, for the list of one's own sign-ins.</summary>
internal static class Browser
{
    // The order matters: most browsers also carry the names of others.
    private static readonly (string Mark, string Name)[] Names =
        [("Edg/", "Edge"), ("OPR/", "Opera"), ("Firefox/", "Firefox"), ("Chrome/", "Chrome"), ("Safari/", "Safari")];

    private static readonly (string Mark, string Name)[] Systems =
        [("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("CrOS", "ChromeOS"), ("Windows", "Windows"), ("Mac OS", "Mac"), ("Linux", "Linux")];

    /// <summary>"Firefox on Windows"; never the whole of what the browser sent, which can single a machine out.</summary>
    public static string NameOf(string? userAgent) =>
        $"{Find(Names, userAgent) ?? "A browser"} on {Find(Systems, userAgent) ?? "an unknown device"}";

    private static string? Find((string Mark, string Name)[] known, string? userAgent) =>
        known.FirstOrDefault(k => userAgent?.Contains(k.Mark, StringComparison.Ordinal) ?? false).Name;
}
