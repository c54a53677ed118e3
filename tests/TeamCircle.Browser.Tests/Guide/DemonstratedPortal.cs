using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using TeamCircle.Data.Account;
using TeamCircle.Data.Demonstration;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests;

namespace TeamCircle.Browser.Tests.Guide;

/// <summary>The demonstration as somebody sees it who starts the portal on one certain Tuesday in November, so that pictures of it are always of that day.</summary>
public sealed class DemonstratedPortal(PgAssembly server) : PortalApp(server)
{
    /// <summary>Half past nine in the morning at the made-up agency.</summary>
    public static readonly DateTimeOffset Moment = new(2026, 11, 24, 17, 30, 0, TimeSpan.Zero);

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        UseKestrel(0); // before anything asks for its services
        await using (var scope = Services.CreateAsyncScope())
        {
            var agency = await scope.ServiceProvider.GetRequiredService<SeedDemonstration>().RunAsync();
            await scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>().RunAsync(agency!, isDevelopment: true, CancellationToken.None);
        }
        StartServer();
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.ConfigureTestServices(services => services.AddSingleton<TimeProvider>(new FakeTimeProvider(Moment))
            .AddSingleton(new DemonstrationAccounts(AreLetIn: true)).PostConfigure<PasswordHasherOptions>(o => o.IterationCount = 1));
    }
}
