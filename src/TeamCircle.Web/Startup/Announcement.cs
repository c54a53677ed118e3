namespace TeamCircle.Web.Startup;

internal static class Announcement
{
    /// <summary>In Development fills the demonstration; prints where the portal is, and who may sign in.</summary>
    public static async Task AnnounceAsync(this WebApplication app)
    {
        var signIns = app.Environment.IsDevelopment() ? await Demonstration.FillAsync(app.Services) : [];
        if (app.Urls.Count == 0)
            return; // a test server listens nowhere
        Console.WriteLine($"TeamCircle is at {string.Join(" and ", app.Urls)}");
        foreach (var line in signIns)
            Console.WriteLine("  " + line);
    }
}
