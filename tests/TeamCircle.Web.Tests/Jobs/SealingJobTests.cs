using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using TeamCircle.Data.History;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Jobs;

/// <summary>A portal whose clock the test moves.</summary>
public sealed class PortalByTheClock(PgAssembly server) : PortalApp(server)
{
    public FakeTimeProvider Clock { get; } = new(new DateTimeOffset(2026, 10, 2, 16, 0, 0, TimeSpan.Zero));

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.ConfigureTestServices(services => services.AddSingleton<TimeProvider>(Clock));
    }
}

public sealed class SealingJobTests(PortalByTheClock app) : IClassFixture<PortalByTheClock>
{
    [Fact]
    public async Task Portal_seals_the_trail_of_each_agency_by_the_clock_and_two_portals_make_one_chain()
    {
        await using var one = await TestAgency.CreateAsync(app.Database, "ONE");
        await using var two = await TestAgency.CreateAsync(app.Database, "TWO");
        await using var second = app.WithWebHostBuilder(_ => { });
        app.CreateClient().Dispose();
        second.CreateClient().Dispose();

        foreach (var agency in new[] { one, two })
        {
            var answer = await SealedAsync(agency);
            Assert.Null(answer.Misfit);
            Assert.Equal(answer.Changes, await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Blocks.SumAsync(b => (long)b.Changes)));
        }
    }

    // The job runs beside the test: the clock is moved until the trail is sealed, which no waiting brings about.
    private async Task<VerifyChanges.Answer> SealedAsync(TestAgency agency)
    {
        var verify = new VerifyChanges(agency.Portal, new SealKey(app.SealKeyFile));
        VerifyChanges.Answer answer;
        do
        {
            app.Clock.Advance(TimeSpan.FromSeconds(5));
            answer = await verify.RunAsync(agency.Id, TestContext.Current.CancellationToken);
        }
        while (answer is { Unsealed: > 0, Misfit: null });
        return answer;
    }
}
