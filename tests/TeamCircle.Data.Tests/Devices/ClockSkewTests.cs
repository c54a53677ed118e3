using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Practice;
using TeamCircle.Testing;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Devices;

/// <summary>T6 of docs/reliability.md: a tablet's clock that is wrong by hours or days, nights on which the clocks change, a leap day, and a portal whose own clock was put back.</summary>
public sealed class ClockSkewTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const int Hour = 3_600_000;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Practice_stands_on_the_day_it_took_place_however_wrong_the_tablets_clock_was()
    {
        await using var world = await World.CreateAsync(database, "SKEW");
        // In America/Los_Angeles: before and after clocks go forward, the same local time twice as they go back, a leap day's last minutes, and an ordinary midnight.
        (string True, string Day)[] moments =
        [
            ("2026-03-08T09:55:00Z", "2026-03-08"), ("2026-03-08T10:05:00Z", "2026-03-08"), ("2025-11-02T08:30:00Z", "2025-11-02"),
            ("2025-11-02T09:30:00Z", "2025-11-02"), ("2024-03-01T07:50:00Z", "2024-02-29"), ("2026-09-16T06:58:00Z", "2026-09-15"),
        ];
        foreach (var (moment, day) in moments)
        {
            foreach (var skew in new[] { 0, 72 * Hour, -72 * Hour, 13 * Hour, -13 * Hour })
            {
                var began = InstantPattern.General.Parse(moment).Value;
                var sent = world.Practice.Record() with { StartedAt = began + Duration.FromMilliseconds(skew), EndedAt = began + Duration.FromMilliseconds(skew) + Duration.FromMinutes(5) };

                Assert.Equal(OperationEnd.Stored, await world.SendAsync(sent, skew));

                var row = await world.RowAsync(sent);
                Assert.Equal((began, LocalDatePattern.Iso.Parse(day).Value, skew), (row.StartedAt, row.OnDay, row.SkewMs));
                Assert.Equal(Duration.FromMinutes(5), row.EndedAt - row.StartedAt); // never negative, never an hour more
                Assert.Contains(InstantPattern.General.Format(sent.StartedAt)[..16], row.Record, StringComparison.Ordinal); // the device's word is kept beside it
            }
        }
    }

    [Fact]
    public async Task Practice_that_a_portal_whose_clock_was_put_back_cannot_believe_waits_whole_and_is_never_stored_twice()
    {
        await using var world = await World.CreateAsync(database, "STEP");
        var now = Instant.FromDateTimeOffset(world.Agency.Clock.GetUtcNow());
        var sent = world.Practice.Record() with { StartedAt = now - Duration.FromMinutes(30), EndedAt = now - Duration.FromMinutes(25) };
        var (early, id) = (world.Practice.Record() with { StartedAt = now - Duration.FromHours(4), EndedAt = now - Duration.FromHours(3) }, Guid.CreateVersion7());
        world.Agency.Clock.AdjustTime(world.Agency.Clock.GetUtcNow().AddHours(-2));

        Assert.Equal(OperationEnd.SetAside, await world.SendAsync(sent, 0, id));
        Assert.Equal(OperationEnd.Stored, await world.SendAsync(early, 0));
        world.Agency.Clock.AdjustTime(world.Agency.Clock.GetUtcNow().AddHours(2));

        Assert.Equal(OperationEnd.SetAside, await world.SendAsync(sent, 0, id)); // the first answer, also when the clock is right again
        var kept = await world.ReadAsync(async db => (Practices: await db.Practices.CountAsync(p => p.AgencyId == world.Agency.Id, Stop), Aside: await db.SetAsides.CountAsync(a => a.AgencyId == world.Agency.Id, Stop)));
        Assert.Equal((1, 1), kept);
    }

    private sealed class World(TestAgency agency, TestTeam team, TestPractice practice, int person, Guid device) : IAsyncDisposable
    {
        public TestAgency Agency => agency;
        public TestPractice Practice => practice;

        public static async Task<World> CreateAsync(TestDatabase database, string code)
        {
            var agency = await TestAgency.CreateAsync(database, code);
            var team = await TestTeam.CreateAsync(agency);
            var person = await (await FaultTeam.CreateAsync(agency, team)).PersonAsync("tomasz");
            var practice = await TestPractice.CreateAsync(agency, team, "Watering by the clock");
            return new(agency, team, practice, person.Id, await practice.DeviceAsync(team, person.Id));
        }

        public async Task<OperationEnd> SendAsync(Core.Practice.PracticeRecord record, int skew, Guid? id = null) =>
            (await agency.Get<SyncOperations>().RunAsync(await team.CallerAsync(person), device, [practice.Sent(record, id, skew)], Stop))!.Single().End;

        public Task<PracticeRow> RowAsync(Core.Practice.PracticeRecord record) => ReadAsync(db => db.Practices.SingleAsync(p => p.AgencyId == agency.Id && p.Id == record.Id, Stop));

        public Task<T> ReadAsync<T>(Func<PortalDb, Task<T>> read) => agency.Portal.ReadAsync(agency.WholeAgency, read, Stop);

        public ValueTask DisposeAsync() => agency.DisposeAsync();
    }
}
