using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Jobs;

public sealed class SeriesJobTests(PortalByTheClock app) : IClassFixture<PortalByTheClock>
{
    private static readonly LocalDate Closed = new(2027, 3, 2);

    [Fact]
    public async Task Portal_writes_the_visit_of_a_day_whose_closure_was_taken_back()
    {
        await using var agency = await TestAgency.CreateAsync(app.Database, "NIGHT");
        var team = await TestTeam.CreateAsync(agency);
        var closure = await agency.AddAsync(new ClosureRow { OnDay = Closed, Name = "Staff day", Kind = ClosureKind.Published });
        var series = await agency.Get<ScheduleSeries>().RunAsync(await team.CallerAsync(team.Odalys), Guid.CreateVersion7(), new()
        {
            Learner = team.Wren,
            ServiceId = team.Vision.Id,
            Start = new(9, 0),
            Minutes = 30,
            FirstDay = new(2027, 2, 23),
            EndsOn = new(2027, 3, 9),
            Cadence = new() { Days = [IsoDayOfWeek.Tuesday] },
        });
        Assert.Equal(2, series.Value!.Written);
        await agency.ChangeAsync<ClosureRow>(c => c.Id == closure.Id, c => c.Live = false);
        app.CreateClient().Dispose();

        Assert.Equal(1, await WrittenAsync(agency));
    }

    // The job runs beside the test: the clock is moved until the visit is there, which no waiting brings about.
    private async Task<int> WrittenAsync(TestAgency agency)
    {
        for (var hours = 0; hours < 24 * 30; hours++)
        {
            app.Clock.Advance(TimeSpan.FromHours(1));
            if (await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Visits.CountAsync(v => v.AgencyId == agency.Id && v.OnDay == Closed)) is > 0 and var written)
                return written;
        }
        return 0;
    }
}
