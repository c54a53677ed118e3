using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>One line opened to how it was worked out, on the demonstration world.</summary>
public sealed class ReadLedgerTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate AsOf = new(2026, 10, 2);
    private TestAgency _agency = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"LEDGER{Guid.CreateVersion7():N}"[..20]);
        await SampleWorld.ImportAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    [Fact]
    public async Task Service_opened_shows_every_visit_with_what_became_of_its_minutes()
    {
        var page = await _agency.Get<ReadLedger>().ServiceAsync(_agency.WholeAgency, await ServiceAsync("JONAH-OT"), null, AsOf);

        var line = Assert.Single(page!.Lines);
        Assert.Equal("Period 1", page.Period.Name);
        Assert.Equal(["JONAH-OT", "JONAH-OT-2"], page.Versions.Select(v => v.Code));
        Assert.Equal(line.Working.GivenEntries.Select(e => Day.Date(e.Entry.Day)), line.Given.Select(g => g.OnDay));
        Assert.Equal(line.Working.PlannedEntries.Select(e => Day.Date(e.Entry.Day)), line.Planned.Select(p => p.OnDay));
        Assert.Equal(line.Working.Decisions.Select(d => Day.Date(d.Decision.Day)), line.Decisions.Select(d => d.OnDay));
        Assert.Equal(
            [(new LocalDate(2026, 9, 1), Reason.LearnerInHospital), (new LocalDate(2026, 9, 17), Reason.WeatherOrEmergency),
             (new LocalDate(2026, 9, 22), Reason.WeatherOrEmergency), (new LocalDate(2026, 10, 1), Reason.NobodyHome)],
            line.NotGiven.Select(n => (n.OnDay, n.Reason!.Value)));
    }

    [Fact]
    public async Task Line_opened_equals_its_entry_in_the_audit()
    {
        var periods = await _agency.Get<ReadAudit>().PeriodsAsync(_agency.WholeAgency);
        var audit = await _agency.Get<ReadAudit>().RunAsync(_agency.WholeAgency, periods[0].Id, AsOf);

        foreach (var entry in audit!.Lines)
        {
            var page = entry.Line.IsProbes
                ? await _agency.Get<ReadLedger>().GoalAsync(_agency.WholeAgency, entry.Line.Id, periods[0].Id, AsOf)
                : await _agency.Get<ReadLedger>().ServiceAsync(_agency.WholeAgency, entry.Line.Id, periods[0].Id, AsOf);
            Assert.Equal(entry.Balance, Assert.Single(page!.Lines).Working.Balance);
            Assert.Equal(page.Lines[0].Working.GivenEntries.Count, page.Lines[0].Given.Count);
        }
    }

    [Fact]
    public async Task Day_before_shows_later_visits_as_planned_though_they_were_logged_since()
    {
        var page = await _agency.Get<ReadLedger>().ServiceAsync(_agency.WholeAgency, await ServiceAsync("WREN-AT"), null, new(2026, 8, 20));

        var line = Assert.Single(page!.Lines);
        Assert.Equal([new LocalDate(2026, 8, 20)], line.Working.GivenEntries.Where(e => e.Fate == Fate.Ordinary).Select(e => Day.Date(e.Entry.Day)));
        Assert.Contains(line.Working.PlannedEntries, e => Day.Date(e.Entry.Day) == new LocalDate(2026, 8, 27) && e.Entry.Amount == 35);
    }

    [Fact]
    public async Task Service_of_a_learner_out_of_reach_is_not_found()
    {
        var service = await ServiceAsync("JONAH-OT");
        var wren = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Learners.Where(l => l.Code == "WREN").Select(l => l.Id).SingleAsync());

        Assert.Null(await _agency.Get<ReadLedger>().ServiceAsync(_agency.Person(_agency.Terminal, wren), service, null, AsOf));
    }

    private Task<int> ServiceAsync(string code) => _agency.Portal.ReadAsync(
        _agency.WholeAgency, db => db.Services.Where(s => s.AgencyId == _agency.Id && s.Code == code).Select(s => s.Id).SingleAsync());
}
