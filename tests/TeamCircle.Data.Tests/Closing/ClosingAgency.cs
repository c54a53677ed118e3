using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.History;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Closing;

/// <summary>The small team on Tuesday 20 October 2026, four days after its first reporting period, with a director and what closes counts.</summary>
internal sealed class ClosingAgency : IAsyncDisposable
{
    private static int _agencies;
    private readonly TestDatabase _database;

    private ClosingAgency(TestDatabase database, TestAgency agency, TestTeam team) => (_database, Agency, Team) = (database, agency, team);

    public TestAgency Agency { get; }
    public TestTeam Team { get; }
    public int Director { get; private set; }

    /// <param name="today">Another day than that Tuesday.</param>
    public static async Task<ClosingAgency> CreateAsync(TestDatabase database, LocalDate? today = null)
    {
        var agency = await TestAgency.CreateAsync(database, $"CLOSE{Interlocked.Increment(ref _agencies)}");
        var made = new ClosingAgency(database, agency, await TestTeam.CreateAsync(agency));
        made.Director = await made.Team.PersonAsync("Solveig Harrow", Role.Director, Relation.Team);
        var day = today ?? new(2026, 10, 20);
        agency.Clock.SetUtcNow(new DateTimeOffset(day.Year, day.Month, day.Day, 18, 0, 0, TimeSpan.Zero));
        return made;
    }

    public Task<Caller> CallerAsync(int person) => Team.CallerAsync(person);

    public Task<T> ReadAsync<T>(Func<PortalDb, Task<T>> read) => Agency.Portal.ReadAsync(Agency.WholeAgency, read);

    public async Task<CountPage> CountAsync(int? reader = null)
    {
        var caller = await CallerAsync(reader ?? Team.Marisol);
        return (await Agency.Get<ReadCount>().RunAsync(caller, Scope.Of(caller), Team.Wren, Team.Period.Id))!;
    }

    /// <summary>The same word on every obstacle.</summary>
    public static Dictionary<string, string?> Words(CountPage count) => count.Obstacles.ToDictionary(o => o.Obstacle.Key, _ => (string?)"left for the team meeting");

    public async Task<Outcome<ClosePeriod.Closed>> CloseAsync(CountPage count, int? by = null, Dictionary<string, string?>? words = null) =>
        await Agency.Get<ClosePeriod>().RunAsync(await CallerAsync(by ?? Team.Marisol), Guid.CreateVersion7(), new()
        {
            Learner = Team.Wren,
            Period = Team.Period.Id,
            Mark = count.Mark,
            Credential = "Special education teacher, licence 204",
            Words = words ?? Words(count),
        });

    public async Task<int> CloseAsync() => Must(await CloseAsync(await CountAsync())).Statement;

    public Task<Outcome<RestatePeriod.Restated>> RestateAsync(int statement, params RestatePeriod.Aside[] asides) => RestateAsync(statement, null, false, asides);

    public async Task<Outcome<RestatePeriod.Restated>> RestateAsync(
        int statement, CorrectSession.Input? correction, bool saysNothing = false, params RestatePeriod.Aside[] asides) =>
        await Agency.Get<RestatePeriod>().RunAsync(await CallerAsync(Team.Marisol), Guid.CreateVersion7(), new()
        {
            Learner = Team.Wren,
            Period = Team.Period.Id,
            Statement = statement,
            Reason = "A tablet came back into the network.",
            Asides = asides,
            Correction = correction,
            Credential = "Special education teacher, licence 204",
            Words = saysNothing ? [] : Words(await CountAsync()),
        });

    /// <summary>The case manager asks, and the director grants.</summary>
    public async Task ReopenAsync()
    {
        Must(await Agency.Get<AskToReopen>().RunAsync(await CallerAsync(Team.Marisol), Guid.CreateVersion7(), new() { Learner = Team.Wren, Period = Team.Period.Id, Reason = "A visit stands on the wrong day." }));
        Must(await AnswerAsync(Director));
    }

    public async Task<Outcome<AnswerReopening.Answered>> AnswerAsync(int by, bool grant = true)
    {
        var version = (await CountAsync()).Reopening!.Version;
        return await Agency.Get<AnswerReopening>().RunAsync(
            await CallerAsync(by), Guid.CreateVersion7(), new() { Learner = Team.Wren, Period = Team.Period.Id, Version = version, Grant = grant, Answer = "Seen and agreed." });
    }

    /// <summary>A visit of 30 minutes that nobody had scheduled.</summary>
    public async Task<Outcome<Saved>> LogAsync(LocalDate day, string start = "9:00", string end = "9:30", LocalDate? pays = null, Guid? operation = null) =>
        await Agency.Get<LogSession>().RunAsync(await CallerAsync(Team.Odalys), operation ?? Guid.CreateVersion7(),
            new() { Services = [Team.Vision.Id], OnDay = day, Start = start, End = end, PaysOn = pays });

    public Task<VerifyStatements.Answer> VerifyAsync() => Agency.Get<VerifyStatements>().RunAsync(Agency.Id);

    public Task<VerifyChanges.Answer> VerifyBlocksAsync() => Agency.Get<VerifyChanges>().RunAsync(Agency.Id);

    /// <summary>Runs SQL as the database's owner, who can set every wall aside.</summary>
    public async Task AsOwnerAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(_database.ConnectionString());
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }

    public static T Must<T>(Outcome<T> outcome) where T : class
    {
        Assert.Empty(outcome.Problems);
        return outcome.Value!;
    }

    public ValueTask DisposeAsync() => Agency.DisposeAsync();
}
