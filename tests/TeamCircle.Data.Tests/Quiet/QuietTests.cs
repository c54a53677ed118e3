using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Mail;
using TeamCircle.Data.Quiet;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Quiet;

/// <summary>A learner's quiet: who sets it, what it stops, who ends it.</summary>
public sealed class QuietTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"QUIET{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private SetQuiet.Input OfWren => new() { Learner = _team.Wren, Reason = "She died on Tuesday.", NamedBy = "Ines Belmares, by telephone", Confirmed = true };

    private async Task<Outcome<SetQuiet.Saved>> SetAsync(int? by = null, SetQuiet.Input? input = null) =>
        await _agency.Get<SetQuiet>().RunAsync(await _team.CallerAsync(by ?? _team.Marisol), Guid.CreateVersion7(), input ?? OfWren, Stop);

    private Task<List<OutboxRow>> OutboxAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Outbox.Where(o => o.AgencyId == _agency.Id).ToListAsync(Stop), Stop);

    private async Task QueueAsync()
    {
        await using var work = await _agency.Portal.OpenAsync(_agency.Person(_team.Marisol, _team.Wren), System.Data.IsolationLevel.ReadCommitted, stop: Stop);
        await QueueMail.ForFamilyAsync(work.Db, _team.Wren, MailKind.NewSummary, Stop);
        await work.CommitAsync(Stop);
    }

    [Fact]
    public async Task Director_and_case_manager_set_it_and_nobody_else()
    {
        var director = await _team.PersonAsync("Dele Ashworth", Role.Director, Relation.Team);

        foreach (var other in new[] { _team.Odalys, _team.Ines, _team.Priya })
            Assert.Equal([Problem.NotFound], (await SetAsync(other)).Problems);
        Assert.Equal(["Reason", "NamedBy", "Confirmed"], (await SetAsync(input: new() { Learner = _team.Wren })).Problems.Select(p => p.Field));
        Assert.NotNull((await SetAsync(director)).Value);
        Assert.Contains("meanwhile", Assert.Single((await SetAsync()).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_waited_is_stopped_and_nothing_more_is_queued_until_it_ends()
    {
        await QueueAsync();
        await QueueAsync();
        Assert.Equal(MailState.Queued, Assert.Single(await OutboxAsync()).State);

        var quiet = (await SetAsync()).Value!;
        Assert.Equal(1, quiet.Stopped);
        await QueueAsync();
        var stopped = Assert.Single(await OutboxAsync());
        Assert.Equal((MailState.Stopped, "Stopped: the learner is quiet."), (stopped.State, stopped.Answer));

        var marisol = await _team.CallerAsync(_team.Marisol);
        var end = new EndQuiet.Input { Learner = _team.Wren, Quiet = quiet.Quiet, Version = 1 };
        Assert.Equal("EndedReason", Assert.Single((await _agency.Get<EndQuiet>().RunAsync(marisol, Guid.CreateVersion7(), end, Stop)).Problems).Field);
        Assert.NotNull((await _agency.Get<EndQuiet>().RunAsync(marisol, Guid.CreateVersion7(), end with { EndedReason = "It was set for the wrong child." }, Stop)).Value);
        await QueueAsync();
        Assert.Equal([MailState.Queued, MailState.Stopped], (await OutboxAsync()).Select(o => o.State).Order());
    }

    [Fact]
    public async Task Moves_of_visits_to_come_are_one_mail_to_each_of_the_family_and_what_was_given_is_none()
    {
        var odalys = await _team.CallerAsync(_team.Odalys);
        var far = new LocalDate(2027, 2, 23); // to come by the database's own clock too
        var visits = new List<Guid>();
        for (var i = 0; i < 5; i++)
        {
            var added = await _agency.Get<ScheduleVisit>().RunAsync(odalys, Guid.CreateVersion7(), new() { Learner = _team.Wren, ServiceId = _team.Vision.Id, OnDay = far.PlusWeeks(i), Start = new(9, 0), Minutes = 30, Confirmed = true }, Stop);
            visits.Add(added.Value!.Visit);
        }
        Assert.Empty(await OutboxAsync());

        foreach (var visit in visits)
        {
            var moved = await _agency.Get<ChangeVisit>().RunAsync(odalys, Guid.CreateVersion7(), new() { Visit = visit, Version = 1, OnDay = far.PlusDays(visits.IndexOf(visit) * 7), Start = new(10, 0), Minutes = 30, Confirmed = true }, Stop);
            Assert.Empty(moved.Problems);
        }

        var mail = Assert.Single(await OutboxAsync());
        Assert.Equal((_team.Ines, MailKind.VisitChanged, _team.Wren, MailState.Queued, null), (mail.PersonId, mail.Kind, mail.LearnerId, mail.State, mail.NotBefore));
    }
}
