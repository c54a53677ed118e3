using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data.Account;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests;

/// <summary>A portal with the small team of <see cref="TestTeam"/>: for tests that record something on a day of their own.</summary>
public sealed class RecordingPortal(PgAssembly server) : PortalApp(server)
{
    private readonly Dictionary<string, HttpClient> _signedIn = [];

    public TestAgency Agency { get; private set; } = null!;
    public TestTeam Team { get; private set; } = null!;

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        Agency = await TestAgency.CreateAsync(Database);
        Team = await TestTeam.CreateAsync(Agency);
        await using var scope = Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>()
            .RunAsync(Agency.WholeAgency, isDevelopment: true, CancellationToken.None);
    }

    /// <summary>A browser of that person ("odalys"), signed in; kept for the class.</summary>
    public async Task<HttpClient> BrowserAsync(string person)
    {
        if (_signedIn.TryGetValue(person, out var kept))
            return kept;
        var browser = CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
        (await browser.SignInAsync($"{person}@tallowfern.example")).Dispose();
        return _signedIn[person] = browser;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.UseSetting("Limits:PersonEachMinute", "100000").UseSetting("Limits:AddressEachMinute", "100000").UseSetting("Limits:SignInsEachMinute", "100000");
        builder.ConfigureTestServices(services => services.AddSingleton<TimeProvider>(Agency.Clock));
    }

    public override async ValueTask DisposeAsync()
    {
        foreach (var browser in _signedIn.Values)
            browser.Dispose();
        await Agency.DisposeAsync();
        await base.DisposeAsync();
        GC.SuppressFinalize(this);
    }
}
