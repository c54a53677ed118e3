using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data.Account;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Commitments;

/// <summary>The portal with the sample world in it, on 2 October 2026, and an account for everybody.</summary>
public sealed class AuditSite(PgAssembly server) : PortalApp(server)
{
    public TestAgency Agency { get; private set; } = null!;

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        Agency = await TestAgency.CreateAsync(Database);
        await SampleWorld.ImportAsync(Agency);
        await using var scope = Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>().RunAsync(Agency.WholeAgency, isDevelopment: true, CancellationToken.None);
    }

    /// <summary>A browser in which somebody has signed in.</summary>
    public async Task<HttpClient> BrowserAsync(string person)
    {
        var browser = CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
        (await browser.SignInAsync(person)).Dispose();
        return browser;
    }

    public Task<int> ServiceAsync(string code) => Agency.Portal.ReadAsync(
        Agency.WholeAgency, db => db.Services.Where(s => s.Code == code).Select(s => s.Id).SingleAsync());

    public Task<int> GoalAsync(string code) => Agency.Portal.ReadAsync(
        Agency.WholeAgency, db => db.Goals.Where(g => g.Code == code).Select(g => g.Id).SingleAsync());

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.ConfigureTestServices(services => services.AddSingleton<TimeProvider>(Agency.Clock));
    }

    public override async ValueTask DisposeAsync()
    {
        await Agency.DisposeAsync();
        await base.DisposeAsync();
        GC.SuppressFinalize(this);
    }
}
