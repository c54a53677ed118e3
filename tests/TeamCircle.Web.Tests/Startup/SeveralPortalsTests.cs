using System.Globalization;
using System.Net;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.History;
using TeamCircle.Data.Mail;
using TeamCircle.Data.People;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;
using TeamCircle.Web.Tests.Devices;
using TeamCircle.Web.Tests.Mail;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>Two portals, each a process of its own, on one database, with one mail server.</summary>
public sealed class TwoPortals(PgAssembly server) : IAsyncLifetime
{
    private readonly string _data = ScratchFolder.Make();
    private readonly List<PortalProcess> _running = [];

    public RecordingPortal Arranged { get; } = new(server);

    internal MailServer Mail { get; private set; } = null!;

    /// <summary>Where the two are.</summary>
    public IReadOnlyList<Uri> Addresses { get; private set; } = [];

    public async ValueTask InitializeAsync()
    {
        await Arranged.InitializeAsync();
        Mail = await MailServer.StartAsync();
        foreach (var name in new[] { "first", "second" })
            _running.Add(PortalProcess.Start(Path.Combine(_data, name), connectionString: Arranged.Database.ConnectionString(Migrate.App), plainHttp: true, settings: Settings()));
        Addresses = await Task.WhenAll(_running.Select(p => p.AddressAsync()));
    }

    /// <summary>A person who has been on Wren's team for long: these portals go by the clock on the wall.</summary>
    public async Task<PersonRow> OnTeamAsync(string email)
    {
        var person = await Arranged.Agency.AddAsync(new PersonRow { Email = email, Name = "Tomasz Abiolek" });
        await Arranged.Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = new(2000, 1, 1) });
        await Arranged.Agency.AddAsync(new RelationRow { PersonId = person.Id, LearnerId = Arranged.Team.Wren, Kind = Relation.Team, FromDay = new(2000, 1, 1) });
        await Arranged.AddAccountsAsync();
        await Arranged.GiveCodesAsync(email);
        return person;
    }

    private Dictionary<string, string> Settings() => new()
    {
        ["TEAMCIRCLE_SEAL_KEY"] = Path.Combine(_data, "seal.key"),
        ["Mail__Host"] = "localhost",
        ["Mail__Port"] = Mail.Port.ToString(CultureInfo.InvariantCulture),
        ["Mail__Security"] = "None",
        ["Mail__From"] = "portal@tallowfern.example",
        ["Mail__Address"] = "https://portal.tallowfern.example",
        ["Mail__EverySeconds"] = "1",
    };

    public async ValueTask DisposeAsync()
    {
        foreach (var portal in _running)
            portal.Dispose();
        if (Mail is not null)
            await Mail.DisposeAsync();
        await Arranged.DisposeAsync();
        Directory.Delete(_data, recursive: true);
    }
}

/// <summary>What one portal does, the other knows at once; what both are told at once is done once.</summary>
public sealed class SeveralPortalsTests(TwoPortals portals) : IClassFixture<TwoPortals>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Who_signed_in_at_one_goes_on_at_the_other_and_a_sign_out_there_ends_it_at_both()
    {
        var person = await portals.OnTeamAsync("here-and-there@tallowfern.example");
        using var cookies = new HttpClientHandler { AllowAutoRedirect = false };
        using var first = new HttpClient(cookies, disposeHandler: false) { BaseAddress = portals.Addresses[0] };
        using var second = new HttpClient(cookies, disposeHandler: false) { BaseAddress = portals.Addresses[1] };
        await first.SignInWithCodeAsync(person.Email);
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(second));
        var replay = cookies.CookieContainer.GetCookieHeader(portals.Addresses[0]);

        // The form comes from one portal and is taken by the other: both know the keys that protect it.
        var token = await first.TokenAsync("/sign-out");
        using var form = new FormUrlEncodedContent([new("__RequestVerificationToken", token)]);
        using var ended = await second.PostAsync(new Uri("/sign-out", UriKind.Relative), form, Stop);

        Assert.Equal(HttpStatusCode.Redirect, ended.StatusCode);
        using var thief = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false });
        foreach (var portal in portals.Addresses)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, portal) { Headers = { { "Cookie", replay } } };
            using var answer = await thief.SendAsync(request, Stop);
            Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
            Assert.Contains("/sign-in", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Operations_that_a_device_sends_to_both_at_once_are_stored_once_and_answered_alike()
    {
        var person = await portals.OnTeamAsync("both-ways@tallowfern.example");
        var (agency, team) = (portals.Arranged.Agency, portals.Arranged.Team);
        var practice = await TestPractice.CreateAsync(agency, team, "Watering twice");
        var device = await practice.DeviceAsync(team, person.Id);
        JsonElement[] operations = [.. Enumerable.Range(0, 20).Select(_ => practice.Sent(
            practice.Record() with { StartedAt = Instant.FromUtc(2020, 9, 15, 16, 10), EndedAt = Instant.FromUtc(2020, 9, 15, 16, 15) }))];
        var queues = portals.Addresses.Select(_ => new DeviceQueue(person.Email, device)).ToList();
        for (var i = 0; i < queues.Count; i++)
        {
            await queues[i].TurnToAsync(portals.Addresses[i]);
            queues[i].Put(operations);
        }

        Assert.All(await Task.WhenAll(queues.Select(q => q.SendAsync(operations, Stop))), Assert.True);

        foreach (var queue in queues)
            Assert.Equal(operations.Length, queue.Acknowledged.Values.Count(end => end == OperationEnd.Stored));
        Assert.Equal(operations.Length, await agency.Portal.ReadAsync(
            agency.WholeAgency, db => db.Practices.CountAsync(p => p.RoutineId == practice.Version.RoutineId, Stop), Stop));
        queues.ForEach(q => q.Dispose());
    }

    [Fact]
    public async Task Mails_that_wait_go_out_once_though_both_portals_look_for_them()
    {
        var agency = portals.Arranged.Agency;
        List<Guid> queued = [.. Enumerable.Range(0, 12).Select(_ => Guid.CreateVersion7())];
        foreach (var mail in queued)
        {
            var family = await agency.AddAsync(new PersonRow { Email = $"{Guid.CreateVersion7():N}@family.example", Name = "A family" });
            await agency.AddAsync(new PersonRoleRow { PersonId = family.Id, Role = Role.Family, FromDay = new(2000, 1, 1) });
            await agency.AddAsync(new RelationRow { PersonId = family.Id, LearnerId = portals.Arranged.Team.Wren, Kind = Relation.Family, FromDay = new(2000, 1, 1) });
            await agency.AddAsync(new MailChoiceRow { PersonId = family.Id, QuietFrom = LocalTime.Midnight, QuietUntil = LocalTime.Midnight });
            await agency.AddAsync(new OutboxRow { Id = mail, PersonId = family.Id, LearnerId = portals.Arranged.Team.Wren, Kind = MailKind.NewSummary });
        }

        // These two go by the clock on the wall, so digests may be queued beside these mails, or skipped.
        Task<List<OutboxRow>> OursAsync() => agency.Portal.ReadAsync(agency.WholeAgency, db => db.Outbox.Where(o => queued.Contains(o.Id)).ToListAsync(Stop), Stop);
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(50));
        while ((await OursAsync()).Exists(o => o.State is MailState.Queued or MailState.Sending))
            await pace.WaitForNextTickAsync(Stop);

        var ids = (await OursAsync()).Select(o => $"<{o.MessageId}>").Order().ToList();
        var taken = (await ReadMime.AllAsync(portals.Mail.Taken)).Select(m => m.MessageId).Where(ids.Contains).Order();
        Assert.Equal(ids, taken);
    }

    // The backup was taken on the first release's schema: tests/TeamCircle.Testing/Upgrade/README.md
    [Fact]
    public async Task Database_of_the_first_release_is_restored_and_migrated_with_every_row_and_a_portal_serves_its_people()
    {
        var upgrade = Path.Combine(AppContext.BaseDirectory, "Upgrade");
        var bootstrap = portals.Arranged.Database.ConnectionString();
        await AskAsync(bootstrap, "create database upgraded template template0");
        var owner = new NpgsqlConnectionStringBuilder(bootstrap) { Database = "upgraded", Pooling = false }.ConnectionString;

        var restored = await RestoreBackup.RunAsync(owner, Path.Combine(upgrade, "first-release.zip"), _ => { }, Stop);
        await Migrate.RunAsync(owner, stop: Stop);

        Assert.Equal(2013, restored.Tables.Sum(t => t.Rows));
        foreach (var table in restored.Tables)
            Assert.Equal((table.Name, table.Rows), (table.Name, (long)(await AskAsync(owner, $"select count(*) from {table.Name}"))!));
        var app = new NpgsqlConnectionStringBuilder(owner) { Username = Migrate.App }.ConnectionString;
        await VerifiedAsync(app, Path.Combine(upgrade, "first-release.seal.key"));
        var data = ScratchFolder.Make();
        using (var portal = PortalProcess.Start(data, connectionString: app, plainHttp: true))
        {
            using var browser = new HttpClient { BaseAddress = await portal.AddressAsync() };
            using var page = await browser.SignInAsync("ines@family.example");
            Assert.Contains("Wren", await page.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
            Assert.Equal(0, await portal.StopAsync());
        }
        await AskAsync(bootstrap, "drop database upgraded with (force)");
        Directory.Delete(data, recursive: true);
    }

    /// <summary>The trail and the closed counts fit what was sealed under the first release.</summary>
    private static async Task VerifiedAsync(string app, string key)
    {
        await using var services = new ServiceCollection().AddLogging().AddTeamCircleData(app).BuildServiceProvider();
        var portal = services.GetRequiredService<Portal>();
        var trail = await new VerifyChanges(portal, new SealKey(key)).RunAsync(1, Stop);
        var counts = await new VerifyStatements(portal).RunAsync(1, Stop);
        Assert.Equal((null, null), (trail.Misfit, counts.Misfit));
        Assert.Equal((true, 1, 0), (trail.Blocks > 0, counts.Statements, counts.Differences.Count));
    }

    private static async Task<HttpStatusCode> StatusAsync(HttpClient browser)
    {
        using var answer = await browser.GetAsync(new Uri("/", UriKind.Relative), Stop);
        return answer.StatusCode;
    }

    private static async Task<object?> AskAsync(string connection, string sql)
    {
        await using var database = new NpgsqlConnection(connection);
        await database.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, database);
        return await command.ExecuteScalarAsync(Stop);
    }
}
