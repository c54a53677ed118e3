using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Jobs;
using TeamCircle.Data.Mail;
using TeamCircle.Data.People;
using TeamCircle.Data.Quiet;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Mail;

/// <summary>What goes out, to whom, when, and what is stopped on the way. Now is Friday 2 October 2026, 9:00 in Los Angeles.</summary>
public sealed class SendMailTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly Duration Pause = Duration.FromMinutes(1);
    private static int _agencies;
    private readonly List<ReadyMail> _out = [];
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"MAIL{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private Task<MailAnswer> AcceptAsync(ReadyMail mail, CancellationToken stop)
    {
        _out.Add(mail);
        return Task.FromResult(new MailAnswer(MailOutcome.Accepted, "250 OK"));
    }

    private Task<SendMail.Done> SendAsync(Func<ReadyMail, CancellationToken, Task<MailAnswer>>? deliver = null) =>
        Sender().RunAsync(_agency.Id, Pause, deliver ?? AcceptAsync, Stop);

    private SendMail Sender()
    {
        var reads = new ReadDigest(_agency.Get<ReadQuiet>(), _agency.Get<Data.Sessions.ReadMyDay>(), _agency.Get<Data.Commitments.ReadStandingLines>(), _agency.Get<Data.Learners.ReadCaseload>());
        return new(_agency.Portal, new(_agency.Get<ReadCaller>(), reads, _agency.Get<ReadLink>()), _agency.Get<MailSecrets>(), _agency.Clock);
    }

    private Task<List<OutboxRow>> OutboxAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Outbox.Where(o => o.AgencyId == _agency.Id).OrderBy(o => o.Id).ToListAsync(Stop), Stop);

    private async Task QueueSummaryAsync()
    {
        await using var work = await _agency.Portal.OpenAsync(_agency.Person(_team.Marisol, _team.Wren), System.Data.IsolationLevel.ReadCommitted, stop: Stop);
        await QueueMail.ForFamilyAsync(work.Db, _team.Wren, MailKind.NewSummary, Stop);
        await work.CommitAsync(Stop);
    }

    private async Task<SetQuiet.Saved> SetQuietAsync() => (await _agency.Get<SetQuiet>().RunAsync(
        await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), new() { Learner = _team.Wren, Reason = "She died on Tuesday.", NamedBy = "Ines Belmares", Confirmed = true }, Stop)).Value!;

    [Fact]
    public async Task Link_goes_out_once_with_its_tail_and_the_outbox_keeps_none()
    {
        var terminal = await _team.CallerAsync(_agency.Terminal);
        var link = (await _agency.Get<MakeLink>().RunAsync(terminal, _team.Odalys, Stop)).Value!;
        var queued = Assert.Single(await OutboxAsync());
        Assert.Equal((MailKind.Invitation, _team.Odalys), (queued.Kind, queued.PersonId));
        Assert.DoesNotContain(link.Key, queued.Secret!, StringComparison.Ordinal);

        Assert.Equal(new(1, 0, 0, 0), await SendAsync());
        Assert.True((await SendAsync()).IsNothing);

        var mail = Assert.Single(_out);
        Assert.Equal((link.Path, "odalys@tallowfern.example", null), (mail.Text.Path, mail.To, mail.UnsubscribeKey));
        var sent = Assert.Single(await OutboxAsync());
        Assert.Equal((MailState.Sent, null, "250 OK", queued.MessageId), (sent.State, sent.Secret, sent.Answer, mail.MessageId));
    }

    [Fact]
    public async Task Refused_for_now_is_tried_again_later_and_later_under_the_same_name_and_then_given_up()
    {
        await QueueSummaryAsync();
        var ids = new List<string>();
        var hours = new List<double>();
        Task<MailAnswer> Busy(ReadyMail mail, CancellationToken stop)
        {
            ids.Add(mail.MessageId);
            return Task.FromResult(new MailAnswer(MailOutcome.Later, "The server was busy (451)."));
        }

        for (var i = 0; i < MailTries.Most; i++)
        {
            await SendAsync(Busy);
            var row = Assert.Single(await OutboxAsync());
            hours.Add((row.NotBefore!.Value - Now).TotalHours);
            await _agency.ChangeAsync<OutboxRow>(o => o.State == MailState.Sending, o => o.NotBefore = Now); // its time has come
        }

        Assert.Equal(MailTries.Most, ids.Count);
        Assert.Single(ids.Distinct());
        Assert.Equal(hours[..^1].Order(), hours[..^1]);
        var ended = Assert.Single(await OutboxAsync());
        Assert.Equal((MailState.Failed, "The server was busy (451).", null), (ended.State, ended.Answer, ended.Secret));

        var hana = await _team.CallerAsync(await _team.PersonAsync("Hana Verity", Role.Administrator, Relation.Team));
        Assert.Equal([Problem.NotFound], (await _agency.Get<TryAgain>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), Stop)).Problems);
        Assert.Equal(1, (await _agency.Get<TryAgain>().RunAsync(hana, Guid.CreateVersion7(), Stop)).Value!.Mails);
        Assert.Equal(1, (await SendAsync()).Sent);
        Assert.Equal(ids[0], Assert.Single(_out).MessageId);
    }

    [Fact]
    public async Task Whoever_has_left_the_family_or_does_not_want_it_gets_nothing_although_it_was_queued()
    {
        await QueueSummaryAsync();
        await _agency.ChangeAsync<RelationRow>(r => r.PersonId == _team.Ines, r => r.ToDay = new LocalDate(2026, 10, 1));
        Assert.Equal(new(0, 1, 0, 0), await SendAsync());

        var father = await _team.PersonAsync("Teodor Belmares", Role.Family, Relation.Family, _team.Wren);
        await _agency.AddAsync(new MailChoiceRow { PersonId = father, NewSummary = false });
        await QueueSummaryAsync();
        await SendAsync();

        Assert.Empty(_out);
        var answers = (await OutboxAsync()).Select(o => o.Answer!).ToList();
        Assert.Equal(["Stopped: the person does not want these mails.", "Stopped: the person's role or relation has ended.", "Stopped: the person's role or relation has ended."], answers.Order());
    }

    [Fact]
    public async Task Quiet_between_queueing_and_sending_and_while_the_sender_holds_a_mail_lets_nothing_out()
    {
        await QueueSummaryAsync();
        Assert.Equal(1, (await SetQuietAsync()).Stopped);
        Assert.True((await SendAsync()).IsNothing);
        Assert.Empty(_out);
    }

    [Fact]
    public async Task Quiet_waits_for_a_mail_that_is_at_the_server_and_holds_from_its_answer_on()
    {
        await QueueSummaryAsync();
        var atServer = new TaskCompletionSource();
        var answer = new TaskCompletionSource();
        var sending = SendAsync(async (mail, _) =>
        {
            atServer.SetResult();
            await answer.Task;
            return await AcceptAsync(mail, Stop);
        });
        await atServer.Task;
        var quiet = SetQuietAsync();
        await WaitingAsync();
        Assert.False(quiet.IsCompleted);
        answer.SetResult();

        Assert.Equal(1, (await sending).Sent);
        Assert.Equal(0, (await quiet).Stopped); // it had gone before quiet was set
        await QueueSummaryAsync();
        Assert.True((await SendAsync()).IsNothing);
        Assert.Single(_out);
    }

    [Fact]
    public async Task Quiet_that_comes_between_a_claim_and_its_sending_stops_that_mail()
    {
        await QueueSummaryAsync();
        await SendAsync((_, _) => Task.FromResult(new MailAnswer(MailOutcome.Later, "Busy.")));
        Assert.Equal(MailState.Sending, Assert.Single(await OutboxAsync()).State);

        Assert.Equal(1, (await SetQuietAsync()).Stopped);
        await _agency.ChangeAsync<OutboxRow>(o => o.PersonId == _team.Ines, o => o.NotBefore = Now);

        Assert.True((await SendAsync()).IsNothing);
        Assert.Empty(_out);
    }

    [Fact]
    public async Task Digest_counts_without_names_comes_once_an_hour_of_choice_and_a_late_one_is_skipped()
    {
        var digests = _agency.Get<QueueDigests>();
        var queued = await digests.RunAsync(_agency.Id, Stop);
        Assert.Equal(new(5, 0), queued); // three providers, and a case manager with two kinds
        Assert.Equal(new(0, 0), await digests.RunAsync(_agency.Id, Stop));

        await SendAsync();
        var mail = Assert.Single(_out, m => m.To == "odalys@tallowfern.example");
        Assert.NotNull(mail.UnsubscribeKey);
        Assert.All(mail.Text.Lines, line => Assert.Matches(@"^\d+ [a-z ]+\.$", line));

        _agency.Clock.Advance(TimeSpan.FromHours(24 * 3 + 13)); // Monday, 22:00: the one of Monday, 7:00 is late
        Assert.Equal(new(0, 5), await digests.RunAsync(_agency.Id, Stop));
        Assert.Contains(await OutboxAsync(), o => o.Answer == "Skipped: it was missed for too long.");
    }

    [Fact]
    public async Task Reminder_before_the_week_closes_comes_once_to_who_had_no_digest_since_its_day()
    {
        await _agency.AddAsync(new MailChoiceRow { PersonId = _team.Odalys, Days = 1 }); // Mondays; the reminder's day is Thursday

        Assert.Equal(new(5, 1), await _agency.Get<QueueDigests>().RunAsync(_agency.Id, Stop)); // hers of Monday is skipped
        Assert.Equal(new(0, 0), await _agency.Get<QueueDigests>().RunAsync(_agency.Id, Stop));

        var reminder = Assert.Single(await OutboxAsync(), o => o.Kind == MailKind.Reminder);
        Assert.Equal((_team.Odalys, new LocalDateTime(2026, 10, 1, 7, 0)), (reminder.PersonId, reminder.Slot));
        await SendAsync();
        var mail = Assert.Single(_out, m => m.To == "odalys@tallowfern.example");
        Assert.Equal("Before the week closes", mail.Text.Subject);
        Assert.Contains("1 service with minutes missing in what closes this week.", mail.Text.Lines);
    }

    [Fact]
    public async Task Address_in_a_mail_stops_that_kind_for_that_person_and_nothing_else()
    {
        await QueueSummaryAsync();
        await SendAsync();
        var key = Assert.Single(_out).UnsubscribeKey!;
        var unsubscribe = _agency.Get<Unsubscribe>();

        Assert.Null(await unsubscribe.FindAsync(key + "x", Stop));
        Assert.Equal(new(_agency.Id, _team.Ines, MailKind.NewSummary), await unsubscribe.FindAsync(key, Stop));
        Assert.Empty(await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.MailChoices.ToListAsync(Stop), Stop));
        Assert.Equal(new(MailKind.NewSummary), await unsubscribe.RunAsync(key, Stop));
        Assert.Equal(new(MailKind.NewSummary), await unsubscribe.RunAsync(key, Stop));

        var choice = Assert.Single(await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.MailChoices.Where(c => c.AgencyId == _agency.Id).ToListAsync(Stop), Stop));
        Assert.Equal((_team.Ines, false, true, true), (choice.PersonId, choice.NewSummary, choice.VisitChanged, choice.VisitsAndMinutes));
    }

    [Fact]
    public async Task What_has_outlived_its_time_ends_and_what_holds_stays()
    {
        var device = (await _agency.Get<EnrolDevice>().RunAsync(await _team.CallerAsync(_team.Bram), new("Old tablet"), Stop)).Value!.Device;
        await _agency.Get<MakeLink>().RunAsync(await _team.CallerAsync(_agency.Terminal), _team.Odalys, Stop);
        var expire = _agency.Get<ExpireAccess>();
        Assert.Equal((0, 0), await DoneAsync());

        _agency.Clock.Advance(TimeSpan.FromDays(4));
        Assert.Equal((1, 0), await DoneAsync());
        Assert.Equal((MailState.Stopped, null), Assert.Single((await OutboxAsync()).Select(o => (o.State, o.Secret))));
        await _agency.ChangeAsync<DeviceRow>(d => d.Id == device, d => d.LastContact = Now - ExpireAccess.DeviceLasts - Duration.FromDays(1));
        Assert.Equal((0, 1), await DoneAsync());
        Assert.Equal((0, 0), await DoneAsync());

        async Task<(int Links, int Devices)> DoneAsync() => await expire.RunAsync(_agency.Id, Stop) is var done ? (done.Links, done.Devices) : default;
    }

    [Fact]
    public async Task Two_portals_at_once_queue_and_send_each_mail_once_and_one_of_them_has_the_lease()
    {
        var leases = new[] { _agency.Get<JobLease>(), _agency.Get<JobLease>() };
        await using (var held = await leases[0].TryTakeAsync(Job.Sending, Stop))
        {
            Assert.NotNull(held);
            Assert.Null(await leases[1].TryTakeAsync(Job.Sending, Stop));
            await using var other = await leases[1].TryTakeAsync(Job.Digests, Stop);
            Assert.NotNull(other);
        }
        await using (var again = await leases[1].TryTakeAsync(Job.Sending, Stop))
            Assert.NotNull(again);

        // Also without a lease, as where a connection was lost in the middle.
        var queued = await Task.WhenAll(_agency.Get<QueueDigests>().RunAsync(_agency.Id, Stop), _agency.Get<QueueDigests>().RunAsync(_agency.Id, Stop));
        Assert.Equal(5, queued.Sum(q => q.Queued));
        Task<MailAnswer> Accept(ReadyMail mail, CancellationToken stop)
        {
            lock (_out)
                _out.Add(mail);
            return Task.FromResult(new MailAnswer(MailOutcome.Accepted, "250 OK"));
        }
        var sent = await Task.WhenAll(SendAsync(Accept), SendAsync(Accept));
        Assert.Equal(_out.Count, _out.Select(m => m.MessageId).Distinct().Count());
        Assert.Equal(5, sent.Sum(s => s.Sent + s.Stopped));
    }

    [Fact]
    public async Task Mail_waits_for_the_end_of_the_quiet_hours_in_the_persons_own_zone()
    {
        await _agency.AddAsync(new MailChoiceRow { PersonId = _team.Ines, TimeZone = "Europe/Madrid", QuietFrom = new(17, 0), QuietUntil = new(9, 30) });
        await QueueSummaryAsync(); // 18:00 in Madrid

        Assert.True((await SendAsync()).IsNothing);
        Assert.Equal(Instant.FromUtc(2026, 10, 3, 7, 30), Assert.Single(await OutboxAsync()).NotBefore);
        _agency.Clock.Advance(TimeSpan.FromHours(15.5));
        Assert.Equal(1, (await SendAsync()).Sent);
    }

    private Instant Now => Instant.FromDateTimeOffset(_agency.Clock.GetUtcNow());

    /// <summary>Until the database has somebody wait for the lock of quiet.</summary>
    private async Task WaitingAsync()
    {
        await using var watch = new Npgsql.NpgsqlConnection(database.ConnectionString());
        await watch.OpenAsync(Stop);
        await using var asked = new Npgsql.NpgsqlCommand("select count(*) from pg_locks where locktype = 'advisory' and not granted and database = (select oid from pg_database where datname = current_database())", watch);
        while ((long)(await asked.ExecuteScalarAsync(Stop))! == 0)
            await Task.Yield();
    }
}
