using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.History;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Mail;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Access;

/// <summary>A portal with two agencies, two learners and one person for every kind of visitor, each with an account.</summary>
public sealed class AccessWorld(PgAssembly server) : PortalApp(server)
{
    private readonly Dictionary<Visitor, int> _people = [];
    private readonly Dictionary<Visitor, HttpClient> _signedIn = [];
    private TestAgency? _other;
    private NpgsqlDataSource? _looking;

    public TestAgency Agency { get; private set; } = null!;
    public FakeTimeProvider Clock => Agency.Clock;
    public WrensRecord Wren { get; private set; } = null!;
    public LearnerRow Jonah { get; private set; } = null!;
    public StatementWatch Statements { get; } = new();

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        _looking = NpgsqlDataSource.Create(Database.ConnectionString() + ";Maximum Pool Size=2");
        Agency = await TestAgency.CreateAsync(Database);
        _other = await TestAgency.CreateAsync(Database, "MARSHLOW");
        await WrensRecord.AddCalendarAsync(Agency);
        await WrensRecord.AddCalendarAsync(_other);
        Jonah = await Agency.AddAsync(new LearnerRow { Code = "JONAH", Name = "Jonah Tarrow", MostMinutesADay = 90 });
        var wren = await Agency.AddAsync(new LearnerRow { Code = "WREN", Name = "Wren Belmares", MostMinutesADay = 90 });
        await AddAsync(Visitor.ProviderOnTeam, Role.Provider, wren, Relation.Team);
        await AddAsync(Visitor.ProviderElsewhere, Role.Provider, Jonah, Relation.Team);
        await AddAsync(Visitor.Substitute, Role.Provider);
        await Agency.AddAsync(new RelationRow { LearnerId = wren.Id, PersonId = PersonOf(Visitor.Substitute), Kind = Relation.Substitute, FromDay = Today, ToDay = Today });
        await AddAsync(Visitor.Assistant, Role.Provider, wren, Relation.Assistant);
        await Agency.ChangeAsync<RelationRow>(r => r.PersonId == PersonOf(Visitor.Assistant), r => r.SupervisorId = PersonOf(Visitor.ProviderOnTeam));
        await AddAsync(Visitor.PasswordAlone, Role.Provider, wren, Relation.Team);
        await AddAsync(Visitor.CaseManager, Role.CaseManager, wren, Relation.CaseManager);
        await AddAsync(Visitor.CaseManagerElsewhere, Role.CaseManager, Jonah, Relation.CaseManager);
        await AddAsync(Visitor.Administrator, Role.Administrator);
        await AddAsync(Visitor.Director, Role.Director);
        await AddAsync(Visitor.Family, Role.Family, wren, Relation.Family);
        await AddAsync(Visitor.FamilyElsewhere, Role.Family, Jonah, Relation.Family);
        await AddAsync(Visitor.Reviewer, Role.Reviewer, wren, Relation.Reviewer);
        await AddAsync(Visitor.NobodyAnywhere, Role.Provider);
        var heron = await _other.AddAsync(new LearnerRow { Code = "HERON", Name = "Heron Sallow", MostMinutesADay = 90 });
        await AddAsync(Visitor.OtherAgency, Role.CaseManager, heron, Relation.CaseManager, _other);
        Wren = await WrensRecord.AddAsync(Agency, wren, PersonOf(Visitor.ProviderOnTeam), PersonOf(Visitor.CaseManager));
        await MakeAccountsAsync();
        await UnmarkAsync(Visitor.PasswordAlone);
        await EndAsync(Visitor.NobodyAnywhere);
        JoinKey = await LinkAsync((await Agency.AddAsync(new PersonRow { Email = "new@tallowfern.example", Name = "Sefa Lautele" })).Id);
        Bystander = (await Agency.AddAsync(new PersonRow { Email = "bystander@tallowfern.example", Name = "Priya Lindqvist" })).Id;
        NewPasswordKey = await LinkAsync(PersonOf(Visitor.ProviderElsewhere));
        await AddNewEmailAsync();
        await Agency.AddAsync(new OutboxRow
        {
            Id = Guid.CreateVersion7(),
            PersonId = PersonOf(Visitor.Family),
            LearnerId = wren.Id,
            Kind = MailKind.NewSummary,
            State = MailState.Sent,
            EndedAt = Instant.FromDateTimeOffset(Clock.GetUtcNow()),
            TokenHash = SHA256.HashData(Encoding.UTF8.GetBytes(UnsubscribeKey)),
        });
    }

    public LocalDate Today => LocalDate.FromDateTime(Clock.GetUtcNow().Date);

    /// <summary>A person on the list who is none of the visitors and has no account.</summary>
    public int Bystander { get; private set; }

    /// <summary>What an address may name: something of Wren's, or the bystander.</summary>
    public string IdOf(Subject subject) => subject is Subject.Person ? $"{Bystander}" : Wren.IdOf(subject);

    /// <summary>The tail of a link to join that nobody has used; and of one for a new password.</summary>
    public string JoinKey { get; private set; } = "";
    public string NewPasswordKey { get; private set; } = "";

    /// <summary>The tail of a link that came to the new address of the provider elsewhere.</summary>
    public string NewEmailKey { get; } = "h3nG7vQm1Tz5yB0cR8dW2kX6aP4sL9jFuEoIqNrVtYw";

    /// <summary>The tail of the address in a mail to the family that stops its kind.</summary>
    public string UnsubscribeKey { get; } = Canaries.UnsubscribeKey;

    public async Task<string> LinkAsync(int person)
    {
        var terminal = (await Agency.CallerAsync(Agency.Terminal))!;
        return (await DoAsync((MakeLink make) => make.RunAsync(terminal, person, CancellationToken.None))).Value!.Key;
    }

    public int PersonOf(Visitor visitor) => _people[visitor];

    public string EmailOf(Visitor visitor) => $"{visitor}@tallowfern.example".ToLowerInvariant();

    /// <summary>A browser of that visitor, signed in where they can be; kept for the class, so do not sign it out.</summary>
    public async Task<HttpClient> BrowserAsync(Visitor visitor)
    {
        if (!_signedIn.TryGetValue(visitor, out var browser))
            _signedIn[visitor] = browser = await NewBrowserAsync(visitor);
        return browser;
    }

    /// <summary>A browser with cookies of its own, on https, that follows no redirect.</summary>
    public HttpClient NewBrowser() => CreateClient(new WebApplicationFactoryClientOptions
    {
        BaseAddress = new Uri("https://portal.tallowfern.example"),
        AllowAutoRedirect = false,
    });

    public async Task<HttpClient> NewBrowserAsync(Visitor visitor)
    {
        var browser = NewBrowser();
        if (visitor is not Visitor.SignedOut)
            (await browser.SignInAsync(EmailOf(visitor))).Dispose();
        return browser;
    }

    /// <summary>The network address that every browser here asks from.</summary>
    public const string From = "198.51.100.7";

    /// <summary>The number of the newest line in the record of access, of all agencies.</summary>
    public async Task<long> LastAccessAsync()
    {
        await using var command = _looking!.CreateCommand("select coalesce(max(id), 0) from portal.accesses");
        return (long)(await command.ExecuteScalarAsync())!;
    }

    /// <summary>The record of access of one person since a line.</summary>
    public async Task<List<AccessRow>> AccessesAsync(long since, int person)
    {
        await using var command = _looking!.CreateCommand("select page, ground, refused, learner_ids, address from portal.accesses where id > $1 and person_id = $2 order by id");
        command.Parameters.Add(new() { Value = since });
        command.Parameters.Add(new() { Value = person });
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<AccessRow>();
        while (await reader.ReadAsync())
        {
            rows.Add(new AccessRow
            {
                Page = reader.GetString(0),
                Ground = reader.GetString(1),
                Refused = reader.GetBoolean(2),
                LearnerIds = reader.GetFieldValue<int[]>(3),
                Address = reader.IsDBNull(4) ? null : reader.GetString(4),
            });
        }
        return rows;
    }

    /// <summary>Runs SQL as the database's owner, who can set every wall aside.</summary>
    public async Task AsOwnerAsync(string sql)
    {
        await using var command = _looking!.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }

    /// <summary>What an operation or read of the portal would do, in a scope of its own.</summary>
    public async Task<T> DoAsync<TService, T>(Func<TService, Task<T>> work) where TService : notnull
    {
        await using var scope = Services.CreateAsyncScope();
        return await work(scope.ServiceProvider.GetRequiredService<TService>());
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.UseSetting("Limits:PersonEachMinute", "100000").UseSetting("Limits:AddressEachMinute", "100000").UseSetting("Limits:SignInsEachMinute", "100000");
        builder.ConfigureTestServices(services =>
        {
            services.AddSingleton<TimeProvider>(Agency.Clock);
            // All but one of the visitors show what they must by one password, so that the tests are about what comes after it.
            services.AddSingleton(new DemonstrationAccounts(AreLetIn: true));
            services.AddSingleton<IStartupFilter>(new SocketAddress(_ => From)).AddSingleton<IStartupFilter>(Statements);
            services.Configure<MvcOptions>(o => o.Filters.Add(new HandlerWatch(Statements.HandlerRuns)));
        });
    }

    private async Task AddAsync(Visitor visitor, Role role, LearnerRow? learner = null, Relation relation = default, TestAgency? agency = null)
    {
        agency ??= Agency;
        var person = await agency.AddAsync(new PersonRow { Email = EmailOf(visitor), Name = visitor.ToString() });
        _people[visitor] = person.Id;
        await agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = new LocalDate(2026, 8, 1) });
        if (learner is not null)
            await agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = person.Id, Kind = relation, FromDay = new LocalDate(2026, 8, 1) });
    }

    private Task<int> AddNewEmailAsync() => DoAsync(async (AccountDb db) =>
    {
        var (now, email) = (Instant.FromDateTimeOffset(Clock.GetUtcNow()), EmailOf(Visitor.ProviderElsewhere));
        db.Invitations.Add(new InvitationRow
        {
            Kind = InvitationKind.NewEmail,
            AgencyId = Agency.Id,
            PersonId = PersonOf(Visitor.ProviderElsewhere),
            AccountId = await db.Users.Where(u => u.Email == email).Select(u => u.Id).SingleAsync(),
            Email = EmailOf(Visitor.CaseManager), // somebody signs in with it, so that confirming it changes nothing
            TokenHash = SHA256.HashData(Encoding.UTF8.GetBytes(NewEmailKey)),
            MadeAt = now,
            EndsAt = now + Duration.FromDays(1),
        });
        return await db.SaveChangesAsync();
    });

    private async Task MakeAccountsAsync()
    {
        foreach (var agency in new[] { Agency, _other! })
            await DoAsync((CreateDemonstrationAccounts make) => make.RunAsync(agency.WholeAgency, isDevelopment: true, CancellationToken.None));
    }

    /// <summary>Makes a visitor's account one like any other, whose password is not enough.</summary>
    public Task<int> UnmarkAsync(Visitor visitor) => DoAsync((AccountDb db) =>
        db.Users.Where(u => u.Email == EmailOf(visitor)).ExecuteUpdateAsync(set => set.SetProperty(u => u.IsDemonstration, false)));

    private Task EndAsync(Visitor visitor) => Agency.ChangeAsync<PersonRow>(
        p => p.Id == PersonOf(visitor), p => p.EndedAt = Instant.FromDateTimeOffset(Clock.GetUtcNow()));

    public override async ValueTask DisposeAsync()
    {
        foreach (var browser in _signedIn.Values)
            browser.Dispose();
        Statements.Dispose();
        await Agency.DisposeAsync();
        if (_other is not null)
            await _other.DisposeAsync();
        if (_looking is not null)
            await _looking.DisposeAsync();
        await base.DisposeAsync();
        GC.SuppressFinalize(this);
    }
}
