using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Learners;

/// <summary>Jonah's row turns out to be Wren, entered a second time: Odalys logged some of her visits under the other.</summary>
public sealed class JoinLearnersTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private ServiceRow _vision = null!;
    private Caller _dele = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"JOIN{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _vision = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        var dele = await _agency.AddAsync(new PersonRow { Name = "Dele Okwarre", Email = $"dele@{_agency.Code}.example" });
        await _agency.AddAsync(new PersonRoleRow { PersonId = dele.Id, Role = Role.Administrator, FromDay = new(2026, 8, 1) });
        _dele = (await _agency.CallerAsync(dele.Id))!;
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task LogAsync(ServiceRow service, LocalDate day, string start, string end) => Assert.Empty((await _agency.Get<LogSession>().RunAsync(
        await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Services = [service.Id], OnDay = day, Start = start, End = end })).Problems);

    private Task<Outcome<JoinLearners.Saved>> JoinAsync(Caller? caller = null) => _agency.Get<JoinLearners>().RunAsync(caller ?? _dele, Guid.CreateVersion7(), new()
    {
        Doubled = _team.Jonah,
        Stays = _team.Wren,
        Same = new() { [_vision.Id] = _team.Vision.Id },
        Reason = "Two referrals, two spellings.",
    });

    private async Task<int> GivenAsync() => (await _agency.Get<ReadLedger>().ServiceAsync(
        Scope.Of(await _team.CallerAsync(_team.Marisol)), _team.Vision.Id, null, new(2026, 10, 2)))!.Lines[0].Working.Balance.Minutes.Given;

    [Fact]
    public async Task All_goes_over_and_the_same_promise_is_not_made_twice()
    {
        await LogAsync(_team.Vision, new(2026, 9, 15), "9:00", "9:45");
        await LogAsync(_vision, new(2026, 9, 17), "9:00", "9:30");
        var goal = await _team.GoalAsync(_team.Jonah, _team.Odalys);
        await _agency.AddAsync(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = _team.Jonah, GoalId = goal.Id, ProviderId = _team.Odalys, OnDay = new(2026, 9, 17), Value = 40, RecordedBy = _team.Odalys });
        var extra = await _team.ServiceAsync(_team.Jonah, Discipline.OccupationalTherapy, _team.Bram);
        Assert.Equal(45, await GivenAsync());
        var page = (await _agency.Get<JoinLearners>().PageAsync(_agency.WholeAgency, _team.Jonah, _team.Wren))!;
        Assert.Equal((2, 1), (page.Doubled.Recorded, page.Stays.Recorded)); // a visit and a probe; a visit

        var joined = await JoinAsync();

        Assert.Empty(joined.Problems);
        var (choices, all) = await _agency.Get<JoinLearners>().ReadAsync(_agency.WholeAgency);
        Assert.Equal(_team.Wren, Assert.Single(choices).Id);
        Assert.Equal(("JONAH", "Wren Belmares"), (all.Single().Code, all.Single().Into));
        Assert.Equal(75, await GivenAsync());
        var (services, probes, people, left) = await _agency.Portal.ReadAsync(_agency.WholeAgency, async db => (
            await db.Services.Where(s => s.LearnerId == _team.Wren && s.Live).Select(s => s.Id).ToListAsync(),
            await db.Probes.CountAsync(p => p.LearnerId == _team.Wren),
            await db.Relations.Where(r => r.LearnerId == _team.Wren && r.Live).Select(r => r.PersonId).ToListAsync(),
            await db.Learners.SingleAsync(l => l.Id == _team.Jonah)));
        Assert.Equal(new[] { _team.Vision.Id, extra.Id }.Order(), services.Order());
        Assert.Equal(1, probes);
        Assert.Equal(people.Distinct().Count(), people.Count); // Odalys and Bram stood on both teams
        Assert.Equal((_team.Wren, "Two referrals, two spellings."), (left.JoinedTo, left.JoinedReason));
        Assert.DoesNotContain((await _team.CallerAsync(_team.Odalys)).Learners, l => l == _team.Jonah);
        Assert.True(await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Changes.AnyAsync(c => c.TableName == "sessions" && c.Act == "update"
            && c.LearnerId == _team.Wren && EF.Functions.JsonContains(c.Before!, $"{{\"learner_id\": {_team.Jonah}}}"))));
    }

    private Task CloseAsync(int learner) => _agency.ChangeAsync<LearnerPeriodRow>(c => c.LearnerId == learner, c => c.ClosedAt = Instant.FromUtc(2026, 10, 20, 18, 0)); // it began with the visit

    [Fact]
    public async Task Two_visits_at_one_time_and_a_closed_count_are_named_and_nothing_moves()
    {
        await LogAsync(_team.Vision, new(2026, 9, 15), "9:00", "9:45");
        await _agency.AddAsync(new RelationRow { LearnerId = _team.Jonah, PersonId = _team.Marisol, Kind = Relation.CaseManager, FromDay = new(2026, 8, 17) });
        await _team.VisitAsync(_vision, _team.Bram, new(2026, 9, 15), new(9, 30));

        Assert.Equal("Both have a visit on 2026-09-15, at 09:30 and 09:00. Take back the one that was not given.", Assert.Single((await JoinAsync()).Problems).Message);
        Assert.Contains(Problem.NotFound, (await JoinAsync(await _team.CallerAsync(_team.Marisol))).Problems);

        await _agency.ChangeAsync<VisitRow>(v => v.LearnerId == _team.Jonah, v => v.Live = false);
        await CloseAsync(_team.Jonah);
        Assert.Contains("closed", Assert.Single((await JoinAsync()).Problems).Message, StringComparison.Ordinal);
        Assert.Equal(45, await GivenAsync());
    }
}
