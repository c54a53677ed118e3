using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests;

/// <summary>A portal with the scenario's team in it, whose clock stands on <see cref="SampleTeam.Today"/>: for tests of whole pages.</summary>
public class TeamPortal(PgAssembly server) : PortalApp(server)
{
    private readonly Dictionary<int, HttpClient> _signedIn = [];
    private readonly SemaphoreSlim _signingIn = new(1);

    public TestAgency Agency { get; private set; } = null!;
    public SampleTeam Team { get; private set; } = null!;

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        Agency = await TestAgency.CreateAsync(Database);
        Team = await SampleTeam.AddAsync(Agency);
        await AddAccountsAsync();
    }

    /// <summary>Lets everybody in the agency sign in.</summary>
    public async Task AddAccountsAsync()
    {
        await using var scope = Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>()
            .RunAsync(Agency.WholeAgency, isDevelopment: true, CancellationToken.None);
    }

    /// <summary>A browser of that person, signed in; kept for the class. Several may ask at once: the factory's own list of clients bears one at a time.</summary>
    public async Task<HttpClient> BrowserAsync(PersonRow person)
    {
        await _signingIn.WaitAsync();
        try
        {
            if (_signedIn.TryGetValue(person.Id, out var kept))
                return kept;
            var browser = CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
            (await browser.SignInAsync(person.Email)).Dispose();
            return _signedIn[person.Id] = browser;
        }
        finally
        {
            _signingIn.Release();
        }
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.UseSetting("Limits:PersonEachMinute", "100000").UseSetting("Limits:AddressEachMinute", "100000").UseSetting("Limits:SignInsEachMinute", "100000").UseSetting("Limits:FeedsEachMinute", "100000");
        builder.ConfigureTestServices(services => services.AddSingleton<TimeProvider>(Agency.Clock));
    }

    public override async ValueTask DisposeAsync()
    {
        foreach (var browser in _signedIn.Values)
            browser.Dispose();
        _signingIn.Dispose();
        await Agency.DisposeAsync();
        await base.DisposeAsync();
        GC.SuppressFinalize(this);
    }
}
