using TeamCircle.Data.Jobs;

namespace TeamCircle.Web.Startup;

internal static class Announcement
{
    /// <summary>In Development fills the demonstration; prints where the portal is, and who may sign in or how somebody comes to.</summary>
    public static async Task AnnounceAsync(this WebApplication app)
    {
        var signIns = app.Environment.IsDevelopment() ? await Demonstration.FillAsync(app.Services) : [];
        if (app.Urls.Count == 0)
            return; // a test server listens nowhere
        Console.WriteLine($"TeamCircle is at {string.Join(" and ", app.Urls)}");
        foreach (var line in signIns)
            Console.WriteLine("  " + line);
        if (!app.Environment.IsDevelopment() && await IsEmptyAsync(app.Services))
            Console.WriteLine("  There is no agency yet: TeamCircle.Cli new-agency makes one and prints the link by which its first administrator joins.");
    }

    private static async Task<bool> IsEmptyAsync(IServiceProvider services)
    {
        await using var scope = services.CreateAsyncScope();
        return (await scope.ServiceProvider.GetRequiredService<ReadAgencies>().RunAsync()).Count == 0;
    }
}
