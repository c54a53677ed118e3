using System.Data;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.People;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Testing;

/// <summary>An agency in a test's own database, its services as the portal registers them, and a clock that the test sets.</summary>
public sealed class TestAgency : IAsyncDisposable
{
    private readonly ServiceProvider _services;

    private TestAgency(ServiceProvider services, FakeTimeProvider clock, string code, int id, int terminal) =>
        (_services, Clock, Code, Id, Terminal) = (services, clock, code, id, terminal);

    public FakeTimeProvider Clock { get; }
    public string Code { get; }
    public int Id { get; }

    /// <summary>The person for whom commands run.</summary>
    public int Terminal { get; }
    public Portal Portal => _services.GetRequiredService<Portal>();

    /// <summary>An operation or read as the portal would build it.</summary>
    public T Get<T>() where T : class => ActivatorUtilities.CreateInstance<T>(_services);

    public static async Task<TestAgency> CreateAsync(TestDatabase database, string code = "TALLOWFERN", string moreOnConnection = "")
    {
        var clock = new FakeTimeProvider(new DateTimeOffset(2026, 10, 2, 16, 0, 0, TimeSpan.Zero));
        var services = Services(database, clock, moreOnConnection);
        var portal = services.GetRequiredService<Portal>();
        await using var work = await portal.OpenAsync(new Scope(Wall.Agency, 0, 0, [], true, "a test"), IsolationLevel.ReadCommitted);
        var id = await work.Db.Database.SqlQuery<int>(
            $"select portal.make_agency({code}, 'Tallowfern Education Cooperative', 'America/Los_Angeles') as \"Value\"").SingleAsync();
        await work.CommitAsync();
        var terminal = await portal.ReadAsync(new Scope(Wall.Agency, id, 0, [], true, "a test"), db => db.People.Select(p => p.Id).SingleAsync());
        return new TestAgency(services, clock, code, id, terminal);
    }

    /// <summary>The same agency in another database, where it was restored.</summary>
    public TestAgency MovedTo(TestDatabase database) => new(Services(database, Clock), Clock, Code, Id, Terminal);

    private static ServiceProvider Services(TestDatabase database, TimeProvider clock, string moreOnConnection = "")
    {
        var services = new ServiceCollection().AddSingleton(clock).AddLogging().AddTeamCircleData(database.ConnectionString(Migrate.App) + moreOnConnection).AddSingleton(TestKey.Seal);
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        return services.BuildServiceProvider();
    }

    public Scope WholeAgency => new(Wall.Agency, Id, Terminal, [], true, "a test");

    /// <summary>What a person who may see just these learners reaches.</summary>
    public Scope Person(int person, params int[] learners) => new(Wall.Person, Id, person, learners, true, "a test");

    public Task<Caller?> CallerAsync(int person) => Get<ReadCaller>().RunAsync(Id, person);

    public async Task<T> AddAsync<T>(T row) where T : class, IAgencyRow
    {
        row.AgencyId = Id;
        await using var work = await Portal.OpenAsync(WholeAgency, IsolationLevel.ReadCommitted);
        work.Db.Add(row);
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
        return row;
    }

    /// <summary>Changes the rows that match.</summary>
    public async Task ChangeAsync<T>(System.Linq.Expressions.Expression<Func<T, bool>> which, Action<T> change) where T : class, IAgencyRow
    {
        await using var work = await Portal.OpenAsync(WholeAgency, IsolationLevel.ReadCommitted);
        foreach (var row in await work.Db.Set<T>().Where(r => r.AgencyId == Id).Where(which).ToListAsync())
            change(row);
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
    }

    public LocalDate Day(int month, int day) => new(2026, month, day);

    public async ValueTask DisposeAsync() => await _services.DisposeAsync();
}
