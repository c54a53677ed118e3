using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Learners;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests;

/// <summary>Reads by one statement against the same reads by themselves.</summary>
public sealed class TogetherTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"JOIN{Guid.NewGuid():N}"[..12].ToUpperInvariant());
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    [Fact]
    public async Task Joined_reads_give_what_each_gives_by_itself()
    {
        await _agency.Portal.ReadAsync(_agency.WholeAgency, async db =>
        {
            var people = db.Relations.Where(r => r.AgencyId == _agency.Id).Join(db.People, r => r.PersonId, p => p.Id, (r, p) => new { r.LearnerId, p.Name, r.Kind, r.FromDay, r.ToDay, r.RecordedAt });
            var (services, relations) = (db.Services.Where(s => s.AgencyId == _agency.Id).OrderByDescending(s => s.Id), people.OrderBy(p => p.Name).ThenBy(p => p.LearnerId));
            var (of, other) = (Days(db, _team.Wren), Days(db, _team.Jonah));
            var all = new Together(db);
            var (one, two, three, four) = (all.ListAsync(services), all.ListAsync(relations), all.ListAsync(of), all.ListAsync(other));
            await all.RunAsync(Stop, one, two, three, four);

            Assert.Equal((await services.ToListAsync(Stop)).Select(Told), (await one).Select(Told));
            Assert.Equal(await relations.ToListAsync(Stop), await two);
            Assert.NotEmpty(await two);
            Assert.Equal(await of.ToListAsync(Stop), await three);
            Assert.NotEqual(await three, await four); // the same parameter's name, another value
            Assert.Equal(await other.ToListAsync(Stop), await four);
            return 0;
        }, Stop);
    }

    [Fact]
    public async Task Read_that_asks_on_is_answered_by_the_next_statement()
    {
        var name = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => Together.AloneAsync(db, async all =>
        {
            var learner = (await all.ListAsync(Days(db, _team.Wren)))[0].LearnerId;
            return (await all.ListAsync(db.Learners.Where(l => l.AgencyId == _agency.Id && l.Id == learner))).Single().Name;
        }, Stop), Stop);
        Assert.Equal("Wren Belmares", name);
    }

    [Fact]
    public async Task Read_that_waits_for_something_else_is_refused()
    {
        var never = new TaskCompletionSource();
        await Assert.ThrowsAsync<InvalidOperationException>(() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => Together.AloneAsync(db, async all =>
        {
            await never.Task;
            return 0;
        }, Stop), Stop));
    }

    [Fact]
    public async Task Rows_that_are_not_made_of_columns_alone_are_refused()
    {
        var refused = await Assert.ThrowsAnyAsync<Exception>(() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => Together.AloneAsync(
            db, all => all.ListAsync(db.Plans.Where(p => p.AgencyId == _agency.Id).Select(p => new { Row = p, p.LearnerId })), Stop), Stop));
        Assert.True(refused is InvalidOperationException, $"{refused}");
    }

    [Fact]
    public async Task Wall_stands_before_joined_reads_too() =>
        Assert.Empty(await _agency.Portal.ReadAsync(_agency.Person(_team.Priya), db => Together.AloneAsync(db, all => all.ListAsync(db.Services.Where(s => s.AgencyId == _agency.Id)), Stop), Stop));

    private IQueryable<PlanDays> Days(PortalDb db, int learner) =>
        db.Plans.Where(p => p.AgencyId == _agency.Id && p.LearnerId == learner).Select(p => new PlanDays(p.LearnerId, p.StartDay, p.EndDay, p.EndDay > p.StartDay ? Relation.Team : null));

    private static string Told(ServiceRow s) => $"{s.Id} {s.Code} {s.Discipline} {s.Wording} {s.FromDay} {s.ToDay} {s.RecordedAt} {s.EveryUnit} {s.Live} {s.ShortWindow}";

    private sealed record PlanDays(int LearnerId, LocalDate Start, LocalDate End, Relation? Kind);
}
