using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests;

/// <summary>A portal with the scenario's team in it, whose clock stands on <see cref="SampleTeam.Today"/>: for tests of whole pages.</summary>
public class TeamPortal(PgAssembly server) : AgencyPortal(server)
{
    public SampleTeam Team { get; private set; } = null!;

    /// <summary>A browser of that person, signed in; kept for the class.</summary>
    public Task<HttpClient> BrowserAsync(PersonRow person) => SignedInAsync(person.Email);

    protected override async Task FillAsync() => Team = await SampleTeam.AddAsync(Agency);
}
