using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Mail;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Mail;

/// <summary>
/// The portal is killed with -9 while it sends: before the mail, after the server has it whole, and after the server said so. Nothing is
/// lost, and each kill doubles one mail at most, under the same Message-ID. TEAMCIRCLE_FAULTS says how many kills in all three windows together;
/// without it, one, in the window in which a mail comes twice. The counts are written beside the tests, into mail-kills.txt.
/// </summary>
public sealed class MailKillTests(TestDatabase database) : IClassFixture<TestDatabase>, IDisposable
{
    private const int EachRound = 3;
    private static readonly int Kills = FaultRun.Begin("kill-mail", inTheSuite: 1).Faults;
    private static readonly int Rounds = Math.Max(1, Kills / 3);
    private readonly string _data = ScratchFolder.Make();
    private PortalProcess? _running;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private enum Window
    {
        BeforeTheMail,
        BeforeTheAnswer,
        BeforeTheMark,
    }

    public void Dispose()
    {
        _running?.Dispose();
        Directory.Delete(_data, recursive: true);
    }

    [Fact]
    public async Task Nothing_is_lost_and_each_kill_doubles_one_mail_at_most_wherever_the_portal_is_killed()
    {
        await using var agency = await TestAgency.CreateAsync(database, "KILLED");
        var team = await TestTeam.CreateAsync(agency);
        await using var server = await MailServer.StartAsync();
        var tallies = new List<string>();
        var (kills, queued) = (0, 0);
        foreach (var window in Kills < 3 ? [Window.BeforeTheAnswer] : Enum.GetValues<Window>())
        {
            var before = (Kills: kills, Taken: server.Taken.Count, Queued: queued);
            for (var round = 0; round < Rounds; round++)
            {
                queued += await QueueAsync(agency, team.Wren);
                await KillInAsync(server, window);
                kills++;
                await SentAsync(agency, server);
            }
            tallies.Add($"{window}: kills {kills - before.Kills}, mails {queued - before.Queued}, doubled {server.Taken.Count - before.Taken - (queued - before.Queued)}");
        }

        var ids = (await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Outbox.Where(o => o.AgencyId == agency.Id).ToListAsync(Stop), Stop)).Select(o => $"<{o.MessageId}>").ToList();
        var taken = (await ReadMime.AllAsync(server.Taken)).Select(m => m.MessageId).ToList();
        await File.WriteAllLinesAsync(Path.Combine(AppContext.BaseDirectory, "mail-kills.txt"), tallies, Stop);
        Assert.Equal(queued, ids.Count);
        Assert.Equal(ids.Order(), taken.Distinct().Order()); // none lost, none under another name
        Assert.InRange(taken.Count - queued, 1, kills); // a run in which nothing was doubled has killed at the wrong moment
    }

    private async Task<int> QueueAsync(TestAgency agency, int learner)
    {
        for (var i = 0; i < EachRound; i++)
        {
            var person = await agency.AddAsync(new PersonRow { Email = $"{Guid.CreateVersion7():N}@family.example", Name = "A family" });
            await agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Family, FromDay = new(2000, 1, 1) });
            await agency.AddAsync(new RelationRow { PersonId = person.Id, LearnerId = learner, Kind = Relation.Family, FromDay = new(2000, 1, 1) });
            await agency.AddAsync(new MailChoiceRow { PersonId = person.Id, QuietFrom = LocalTime.Midnight, QuietUntil = LocalTime.Midnight });
            await agency.AddAsync(new OutboxRow { Id = Guid.CreateVersion7(), PersonId = person.Id, LearnerId = learner, Kind = MailKind.NewSummary });
        }
        return EachRound;
    }

    private async Task KillInAsync(MailServer server, Window window)
    {
        var reached = new TaskCompletionSource();
        var killed = new TaskCompletionSource();
        await using var held = new NpgsqlConnection(database.ConnectionString());
        await held.OpenAsync(Stop);
        async Task HoldAsync()
        {
            reached.TrySetResult();
            await killed.Task;
        }
        server.AtRecipient = window is Window.BeforeTheMail ? HoldAsync : Free;
        server.AtAnswer = window switch
        {
            Window.BeforeTheAnswer => HoldAsync,
            Window.BeforeTheMark => () => LockAsync(held, reached),
            _ => Free,
        };
        _running ??= await StartAsync(server);
        await reached.Task;
        if (window is Window.BeforeTheMark)
            await WaitingAsync();
        await _running.KillAsync();
        _running.Dispose();
        (server.AtRecipient, server.AtAnswer) = (Free, Free);
        killed.SetResult();
        await held.CloseAsync();
        _running = await StartAsync(server);
    }

    private static Task Free() => Task.CompletedTask;

    /// <summary>The server says that it has the mail, and the portal can't write that down.</summary>
    private static async Task LockAsync(NpgsqlConnection held, TaskCompletionSource reached)
    {
        if (reached.Task.IsCompleted)
            return;
        await using var command = new NpgsqlCommand("begin; lock table portal.outbox in share mode", held);
        await command.ExecuteNonQueryAsync(Stop);
        reached.SetResult();
    }

    private async Task WaitingAsync()
    {
        await using var watch = new NpgsqlConnection(database.ConnectionString());
        await watch.OpenAsync(Stop);
        await using var asked = new NpgsqlCommand("select count(*) from pg_locks where relation = 'portal.outbox'::regclass and not granted", watch);
        while ((long)(await asked.ExecuteScalarAsync(Stop))! == 0)
            await Task.Yield();
    }

    private async Task<PortalProcess> StartAsync(MailServer server)
    {
        var portal = PortalProcess.Start(_data, connectionString: database.ConnectionString(Migrate.App), plainHttp: true, settings: new Dictionary<string, string>
        {
            ["Mail__Host"] = "localhost",
            ["Mail__Port"] = server.Port.ToString(CultureInfo.InvariantCulture),
            ["Mail__Security"] = "None",
            ["Mail__From"] = "portal@tallowfern.example",
            ["Mail__Address"] = "https://portal.tallowfern.example",
            ["Mail__FirstPauseSeconds"] = "1",
            ["Mail__EverySeconds"] = "1",
        });
        await portal.AddressAsync();
        return portal;
    }

    private static async Task SentAsync(TestAgency agency, MailServer server)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(50));
        while (await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Outbox.AnyAsync(o => o.AgencyId == agency.Id && o.State != MailState.Sent, Stop), Stop))
            await pace.WaitForNextTickAsync(Stop);
        Assert.NotEmpty(server.Taken);
    }
}
