using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>Instants that older time-zone data gave are derived again from local times. Here old data put Los Angeles an hour off.</summary>
public sealed class DeriveInstantsTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Day = new(2026, 11, 10);
    private CalendarAgency _agency = null!;

    public async ValueTask InitializeAsync() => _agency = await CalendarAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    /// <summary>A visit of an hour whose instants stand some hours from where its local time puts them.</summary>
    private Task<VisitRow> VisitAsync(int hour, int hoursOff, int minute = 0) => _agency.Team.VisitAsync(day: Day, start: new(hour, minute), minutes: 60, with: v =>
        v.During = new(v.During.LowerBound + Duration.FromHours(hoursOff), true, v.During.UpperBound + Duration.FromHours(hoursOff), false));

    private async Task<DeriveInstants.Saved> DeriveAsync() => CalendarAgency.Value(await _agency.Agency.Get<DeriveInstants>()
        .RunAsync(Scope.Job(_agency.Agency.Id, _agency.Agency.Terminal, "new time-zone data")));

    private async Task<bool> IsRightAsync(VisitRow visit)
    {
        var row = await _agency.VisitAsync(visit.Id);
        return WallTime.Span(row.OnDay + row.StartTime, row.Minutes, DateTimeZoneProviders.Tzdb[row.Zone]) == (row.During.LowerBound, row.During.UpperBound);
    }

    [Fact]
    public async Task Visits_that_stood_an_hour_off_are_put_right_in_any_order_and_each_leaves_a_change_row()
    {
        // Each needs the place of the next one, which moves too; the last is right already.
        VisitRow[] off = [await VisitAsync(9, -1), await VisitAsync(10, -1), await VisitAsync(11, -1)];
        var right = await VisitAsync(14, 0);

        var saved = await DeriveAsync();
        var again = await DeriveAsync();

        Assert.Equal((4, 3), (saved.Looked, saved.Changed));
        Assert.Empty(saved.Left);
        Assert.Equal((4, 0), (again.Looked, again.Changed));
        foreach (var visit in off)
            Assert.True(await IsRightAsync(visit));
        var changes = await _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.Changes
            .Where(c => c.TableName == "visits" && c.Act == "update" && c.Ground == "new time-zone data" && c.AgencyId == _agency.Agency.Id).Select(c => c.RowKey).ToListAsync());
        Assert.Equal(off.Select(v => $"{v.Id}").Order(), changes.Order());
        Assert.Equal(right.Version, (await _agency.VisitAsync(right.Id)).Version);
    }

    [Fact]
    public async Task Visit_that_would_then_meet_another_stays_and_is_listed_while_the_rest_goes_on()
    {
        await VisitAsync(9, 0);
        var clashing = await VisitAsync(9, 3, minute: 30);
        var other = await VisitAsync(15, 1);

        var saved = await DeriveAsync();

        Assert.Equal(1, saved.Changed);
        var left = Assert.Single(saved.Left);
        Assert.Equal((clashing.Id, Day, new LocalTime(9, 30)), (left.Visit, left.OnDay, left.Start));
        Assert.Contains("already has a visit at that time", left.Why, StringComparison.Ordinal);
        Assert.Equal((false, true), (await IsRightAsync(clashing), await IsRightAsync(other)));
    }

    [Fact]
    public async Task Agency_that_changes_its_zone_keeps_the_hours_of_visits_to_come_and_leaves_the_past_as_it_was_held()
    {
        var agency = _agency.Agency;
        var dele = await agency.AddAsync(new PersonRow { Name = "Dele Okwarre", Email = "dele@zone.example" });
        await agency.AddAsync(new PersonRoleRow { PersonId = dele.Id, Role = Role.Administrator, FromDay = new(2026, 8, 1) });
        var caller = (await agency.CallerAsync(dele.Id))!;
        var past = await _agency.Team.VisitAsync(day: caller.Today.PlusDays(-1), start: new(9, 0), minutes: 60);
        VisitRow[] coming = [await VisitAsync(9, 0), await VisitAsync(10, 0), await VisitAsync(11, 0)];
        Assert.Equal("America/Los_Angeles", coming[0].Zone);
        var standing = await agency.Get<ChangeTimeZone>().ReadAsync(caller, agency.WholeAgency);
        Assert.Equal(3, standing.ToCome);

        var saved = CalendarAgency.Value(await agency.Get<ChangeTimeZone>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Zone = "America/Denver", Reason = "We moved.", Version = standing.Version }));

        Assert.Equal(("America/Denver", 3), (saved.Zone, saved.Moved));
        foreach (var visit in coming)
        {
            var row = await _agency.VisitAsync(visit.Id);
            Assert.Equal((visit.StartTime, "America/Denver"), (row.StartTime, row.Zone));
            Assert.Equal(visit.During.LowerBound - Duration.FromHours(1), row.During.LowerBound); // noon comes an hour earlier in Denver
        }
        Assert.Equal((past.Zone, past.Version), ((await _agency.VisitAsync(past.Id)).Zone, (await _agency.VisitAsync(past.Id)).Version));
    }
}
