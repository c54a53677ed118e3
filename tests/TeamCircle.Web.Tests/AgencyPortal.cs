using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using TeamCircle.Data.Account;
using TeamCircle.Data.History;
using TeamCircle.Testing;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests;

/// <summary>A portal with one agency, whose clock it goes by, and an account for everybody in it.</summary>
public abstract class AgencyPortal(PgAssembly server) : PortalApp(server)
{
    private const int Codes = 40;
    private static readonly ConcurrentDictionary<string, int> UsedCodes = [];
    private readonly Dictionary<string, HttpClient> _signedIn = [];
    private readonly SemaphoreSlim _signingIn = new(1);

    public TestAgency Agency { get; private set; } = null!;

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        Agency = await TestAgency.CreateAsync(Database);
        await FillAsync();
        await AddAccountsAsync();
    }

    /// <summary>Puts into the agency what the tests begin with.</summary>
    protected abstract Task FillAsync();

    /// <summary>Lets everybody in the agency sign in.</summary>
    public async Task AddAccountsAsync()
    {
        await using var scope = Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>()
            .RunAsync(Agency.WholeAgency, isDevelopment: true, CancellationToken.None);
    }

    /// <summary>Makes somebody's account one like any other, which every portal lets in: with an authenticator that nobody here has, and recovery codes.</summary>
    public async Task GiveCodesAsync(string email)
    {
        await using var scope = Services.CreateAsyncScope();
        await GiveCodesAsync(scope.ServiceProvider.GetRequiredService<AccountDb>(), email, Instant.FromDateTimeOffset(Agency.Clock.GetUtcNow()));
    }

    /// <summary>The same in a database that no portal of the tests serves.</summary>
    public static async Task GiveCodesAsync(AccountDb db, string email, Instant since)
    {
        var account = await db.Users.SingleAsync(u => u.Email == email);
        account.IsDemonstration = false;
        db.Authenticators.Add(new AuthenticatorRow { AccountId = account.Id, Secret = [0], Since = since });
        db.RecoveryCodes.AddRange(Enumerable.Range(0, Codes).Select(i => new RecoveryCodeRow { AccountId = account.Id, CodeHash = SHA256.HashData(Encoding.UTF8.GetBytes(Code(i))) }));
        await db.SaveChangesAsync();
    }

    /// <summary>A code of <see cref="GiveCodesAsync"/> that was not used yet.</summary>
    internal static string NextCode(string email) => Code(UsedCodes.AddOrUpdate(email, 0, (_, used) => used + 1));

    private static string Code(int number) => number.ToString("D24", CultureInfo.InvariantCulture);

    /// <summary>INV6, the other half: the chain of sealed blocks is whole.</summary>
    public async Task<Found> ChainAsync()
    {
        var verified = await new VerifyChanges(Agency.Portal, new SealKey(SealKeyFile)).RunAsync(Agency.Id);
        return new(ImmutableHashSet<Guid>.Empty, ImmutableHashSet<Guid>.Empty, ["INV6"], verified.Misfit is { } misfit ? [$"INV6: {misfit}"] : []);
    }

    /// <summary>A browser in which the person with that address has signed in; kept for the class. Several may ask at once: the factory's own list of clients bears one at a time.</summary>
    protected async Task<HttpClient> SignedInAsync(string email)
    {
        await _signingIn.WaitAsync();
        try
        {
            if (_signedIn.TryGetValue(email, out var kept))
                return kept;
            var browser = CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
            (await browser.SignInAsync(email)).Dispose();
            return _signedIn[email] = browser;
        }
        finally
        {
            _signingIn.Release();
        }
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        foreach (var limit in new[] { "PersonEachMinute", "AddressEachMinute", "SignInsEachMinute", "FeedsEachMinute" })
            builder.UseSetting($"Limits:{limit}", "100000");
        // At full strength the passwords of a class's people took two seconds of it; SignInTests hold the portal to the full strength.
        builder.ConfigureTestServices(services => services.AddSingleton<TimeProvider>(Agency.Clock).AddSingleton(new DemonstrationAccounts(AreLetIn: true)).PostConfigure<PasswordHasherOptions>(o => o.IterationCount = 1));
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
