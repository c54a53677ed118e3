using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.Beginning;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Beginning;

/// <summary>A new agency, and the first person in it.</summary>
public sealed class MakeAgencyTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task New_agency_holds_nobody_but_its_terminal_which_lets_the_first_administrator_in()
    {
        await using var host = await TestAgency.CreateAsync(database, "HOST");

        var made = (await host.Get<MakeAgency>().RunAsync(new("CATTAIL", " Cattail Lane ", "America/Denver"), Stop)).Value!;

        var scope = Scope.Job(made.Agency, 0, "a test");
        Assert.Equal("Cattail Lane", await host.Portal.ReadAsync(scope, db => Task.FromResult(db.Agencies.Single(a => a.Id == made.Agency).Name), Stop));
        var terminal = await host.Portal.ReadAsync(scope, db => Task.FromResult(db.PersonRoles.Single(r => r.AgencyId == made.Agency && r.Role == Role.Terminal).PersonId), Stop);
        var caller = (await host.Get<ReadCaller>().RunAsync(made.Agency, terminal, Stop))!;
        Assert.Empty(await host.Get<ReadPeople>().RunAsync(Scope.WholeAgency(caller, "a test"), null, Stop));
        var person = (await host.Get<InvitePerson>().RunAsync(caller, Guid.CreateVersion7(), new() { Email = "dele@cattail.example", Name = "Dele Okwarre", Role = Role.Administrator }, Stop)).Value!;
        Assert.StartsWith("/join/", (await host.Get<MakeLink>().RunAsync(caller, person.Person, Stop)).Value!.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Agency_without_a_code_name_or_zone_of_its_own_is_not_made()
    {
        await using var host = await TestAgency.CreateAsync(database, "OTHER");
        (MakeAgency.Input Input, string Field)[] wrong =
        [
            (new("other", "Cattail Lane", "UTC"), "Code"), (new("C", "Cattail Lane", "UTC"), "Code"), (new("CAT TAIL", "Cattail Lane", "UTC"), "Code"),
            (new("CATTAIL2", " ", "UTC"), "Name"), (new("CATTAIL2", "Cattail Lane", "Denver"), "TimeZone"),
        ];

        foreach (var (input, field) in wrong)
            Assert.Equal(field, Assert.Single((await host.Get<MakeAgency>().RunAsync(input, Stop)).Problems).Field);
    }
}
