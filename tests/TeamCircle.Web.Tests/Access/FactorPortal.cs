using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Access;

/// <summary>A portal with the small team, whose agency has an identity provider; a second agency's provider takes the place of its passwords.</summary>
public sealed class FactorPortal(PgAssembly server) : AgencyPortal(server)
{
    public const string OtherCode = "MARSHLOW";

    public TestTeam Team { get; private set; } = null!;

    public TestAgency Other { get; private set; } = null!;

    public SmallProvider Provider { get; } = new("https://id.tallowfern.example");

    public SmallProvider OtherProvider { get; } = new("https://id.marshlow.example");

    protected override async Task FillAsync()
    {
        Team = await TestTeam.CreateAsync(Agency);
        Other = await TestAgency.CreateAsync(Database, OtherCode);
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        var secret = Path.Combine(LogFolder, "client-secret");
        File.WriteAllText(secret, SmallProvider.ClientSecret + "\n");
        foreach (var (number, agency, provider) in new[] { (0, Agency.Code, Provider), (1, OtherCode, OtherProvider) })
        {
            builder.UseSetting($"Oidc:{number}:Name", $"{agency} accounts").UseSetting($"Oidc:{number}:Agency", agency)
                .UseSetting($"Oidc:{number}:Authority", provider.Issuer).UseSetting($"Oidc:{number}:ClientId", SmallProvider.ClientId)
                .UseSetting($"Oidc:{number}:ClientSecretFile", secret).UseSetting($"Oidc:{number}:SecondFactor", "mfa");
            builder.ConfigureTestServices(services => services.Configure<OpenIdConnectOptions>($"provider-{agency.ToLowerInvariant()}", o =>
            {
                o.BackchannelHttpHandler = provider;
                o.TimeProvider = TimeProvider.System; // its cookies end by the clock of the test's own browser
            }));
        }
        builder.UseSetting("Oidc:1:ReplacesPasswords", "true");
        builder.UseSetting("Mail:EverySeconds", "86400"); // a mail that went out no longer holds its link, and these tests open links
    }

    public override async ValueTask DisposeAsync()
    {
        await Other.DisposeAsync();
        await base.DisposeAsync();
        Provider.Dispose();
        OtherProvider.Dispose();
        GC.SuppressFinalize(this);
    }
}
