using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using TeamCircle.Data.Account;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Account;

/// <summary>Guessing is slowed for all portals together, and for the guesser alone (OWASP ASVS 5.0, 6.3.1; NIST SP 800-63B-4, 3.2.2).</summary>
public sealed class SignInThrottleTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private const string Password = "seven quiet otters waiting";
    private readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 10, 2, 16, 0, 0, TimeSpan.Zero));
    private ServiceProvider _one = null!, _other = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync()
    {
        (_one, _other) = (APortal(), APortal());
        return ValueTask.CompletedTask;
    }

    private ServiceProvider APortal()
    {
        var services = new ServiceCollection().AddSingleton<TimeProvider>(_clock).AddLogging().AddTeamCircleData(database.ConnectionString(Migrate.App));
        services.AddDataProtection();
        return services.PostConfigure<PasswordHasherOptions>(o => o.IterationCount = 1).BuildServiceProvider();
    }

    [Fact]
    public async Task Two_portals_count_together_a_restart_forgets_nothing_and_a_quarter_of_an_hour_later_it_begins_anew()
    {
        SignInThrottle Throttle(ServiceProvider portal) => portal.GetRequiredService<SignInThrottle>();
        var takes = await Task.WhenAll(Enumerable.Range(0, 12).Select(i => Throttle(i % 2 == 0 ? _one : _other).TryTakeAsync("A@B", "here", Stop)));
        Assert.Equal(SignInThrottle.MostTries, takes.Count(t => t));

        await using var restarted = APortal();
        Assert.False(await Throttle(restarted).TryTakeAsync("A@B", "here", Stop));
        Assert.True(await Throttle(restarted).TryTakeAsync("A@B", "there", Stop));
        _clock.Advance(TimeSpan.FromMinutes(14));
        Assert.False(await Throttle(restarted).TryTakeAsync("A@B", "here", Stop)); // trying on does not lengthen the wait
        _clock.Advance(TimeSpan.FromMinutes(1));
        Assert.True(await Throttle(restarted).TryTakeAsync("A@B", "here", Stop));
    }

    [Fact]
    public async Task After_a_hundred_wrong_tries_from_a_hundred_places_the_right_password_works_in_the_known_browser_alone()
    {
        var account = await AccountAsync("wanted@tallowfern.example", isDemonstration: false);
        for (var i = 0; i < SignInThrottle.MostInARow; i++)
            Assert.Null(await TryAsync("wanted@tallowfern.example", "not that", new Place($"192.0.2.{i}", [])));

        Assert.Null(await TryAsync("wanted@tallowfern.example", Password, new Place("198.51.100.7", [])));
        Assert.NotNull(await TryAsync("wanted@tallowfern.example", Password, new Place("198.51.100.7", [new KnownBrowser(account, "its mark")])));
        Assert.NotNull(await TryAsync("wanted@tallowfern.example", Password, new Place("198.51.100.8", []))); // somebody who got in ends the count
    }

    [Fact]
    public async Task Account_of_the_demonstration_is_refused_where_the_portal_was_not_told_to_let_it_in()
    {
        await AccountAsync("known@tallowfern.example", isDemonstration: true);
        await AccountAsync("unknown@tallowfern.example", isDemonstration: false);

        Assert.Null(await TryAsync("known@tallowfern.example", Password, new Place("192.0.2.1", [])));
        Assert.NotNull(await TryAsync("unknown@tallowfern.example", Password, new Place("192.0.2.1", [])));
    }

    private async Task<AccountRow?> TryAsync(string email, string password, Place place)
    {
        await using var scope = _one.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<CheckPassword>().RunAsync(email, password, place, AccountEvent.SignedIn, Stop);
    }

    private async Task<long> AccountAsync(string email, bool isDemonstration)
    {
        await using var scope = _one.CreateAsyncScope();
        var (accounts, db) = (scope.ServiceProvider.GetRequiredService<UserManager<AccountRow>>(), scope.ServiceProvider.GetRequiredService<AccountDb>());
        var row = new AccountRow { UserName = email, Email = email, IsDemonstration = isDemonstration };
        Assert.True((await accounts.CreateAsync(row, Password)).Succeeded);
        await db.SaveChangesAsync(Stop);
        return row.Id;
    }

    public async ValueTask DisposeAsync()
    {
        await _one.DisposeAsync();
        await _other.DisposeAsync();
    }
}
