using System.Collections.Immutable;
using NodaTime;
using Npgsql;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.History;
using TeamCircle.Data.People;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Devices;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>The stored database of the first release with an agency of the test's own in it, whose devices send and whose family reads.</summary>
internal sealed class UpgradedSite : IAsyncDisposable
{
    private const int Devices = 4;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(40);
    private static readonly string Stored = Path.Combine(AppContext.BaseDirectory, "Upgrade");
    private readonly string _folder;
    private readonly TestAgency _agency;
    private readonly PersonRow _provider;

    private UpgradedSite(string folder, TestDatabase database, TestAgency agency, PersonRow provider, PersonRow family, Load load) =>
        (_folder, Database, _agency, _provider, Family, Load) = (folder, database, agency, provider, family.Email, load);

    public TestDatabase Database { get; }
    public Load Load { get; }

    /// <summary>The address of a mother, who needs no second step.</summary>
    public string Family { get; }

    private string SealKeyFile => Path.Combine(_folder, "seal.key");

    public static async Task<UpgradedSite> CreateAsync(PgAssembly server, string folder)
    {
        Directory.CreateDirectory(folder);
        var key = Path.Combine(folder, "seal.key");
        File.Copy(Path.Combine(Stored, "first-release.seal.key"), key);
        var database = new TestDatabase(server);
        await database.InitializeAsync();
        await RunAsync(database, "drop schema portal cascade; drop schema account cascade");
        await RestoreBackup.RunAsync(database.ConnectionString(), Path.Combine(Stored, "first-release.zip"), _ => { });
        var agency = await TestAgency.CreateAsync(database, "UPGRADED");
        var people = await TestTeam.CreateAsync(agency);
        var team = await FaultTeam.CreateAsync(agency, people);
        var provider = await team.PersonAsync("upgraded");
        var family = await FamilyAsync(agency, people);
        foreach (var person in new[] { provider, family })
            await AddAccountAsync(database, person);
        var load = await Load.CreateAsync(team, provider, new(database.ConnectionString(), agency.Id, [provider.Id]), () => ChainAsync(agency, key), Devices, Patience);
        return new(folder, database, agency, provider, family, load);
    }

    /// <param name="release">The folder of another release's portal; null for this one's.</param>
    public PortalProcess Start(string? release = null) => PortalProcess.Start(Database, SealKeyFile, Path.Combine(_folder, release is null ? "new" : "old"), release: release);

    /// <summary>What the new release asks of whoever works for an agency.</summary>
    public async Task SetUpSecondStepAsync()
    {
        await using var accounts = Contexts.Account(Database.ConnectionString());
        await AgencyPortal.GiveCodesAsync(accounts, _provider.Email, Instant.FromDateTimeOffset(TimeProvider.System.GetUtcNow()));
    }

    private static async Task<PersonRow> FamilyAsync(TestAgency agency, TestTeam team)
    {
        var person = await agency.AddAsync(new PersonRow { Email = "reading@family.example", Name = "A mother" });
        await agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Family, FromDay = new(2000, 1, 1) });
        await agency.AddAsync(new RelationRow { PersonId = person.Id, LearnerId = team.Wren, Kind = Relation.Family, FromDay = new(2000, 1, 1) });
        return person;
    }

    /// <summary>An account like one of the demonstration's, with its passphrase: in the columns that the first release had.</summary>
    private static Task AddAccountAsync(TestDatabase database, PersonRow person) => RunAsync(database, """
        with made as (
            insert into account.accounts select (jsonb_populate_record(a, jsonb_build_object('id', nextval(pg_get_serial_sequence('account.accounts', 'id')),
                'user_name', $1, 'normalized_user_name', upper($1), 'email', $1, 'normalized_email', upper($1)))).*
            from account.accounts a where a.email = 'ines@family.example' returning id)
        insert into account.memberships (agency_id, person_id, account_id, since) select $2, $3, id, now() from made
        """, person.Email, person.AgencyId, person.Id);

    /// <summary>The chains of both agencies, whose older blocks were sealed under the first release.</summary>
    private static async Task<Found> ChainAsync(TestAgency agency, string key)
    {
        var broken = new List<string>();
        foreach (var id in new[] { 1, agency.Id })
            if ((await new VerifyChanges(agency.Portal, new SealKey(key)).RunAsync(id)).Misfit is { } misfit)
                broken.Add($"INV6: agency {id}: {misfit}");
        return new(ImmutableHashSet<Guid>.Empty, ImmutableHashSet<Guid>.Empty, ["INV6"], broken);
    }

    private static async Task RunAsync(TestDatabase database, string sql, params object[] values)
    {
        await using var connection = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        foreach (var value in values)
            command.Parameters.Add(new() { Value = value });
        await command.ExecuteNonQueryAsync();
    }

    public async ValueTask DisposeAsync()
    {
        Load.Dispose();
        await _agency.DisposeAsync();
        await Database.DisposeAsync();
    }
}
