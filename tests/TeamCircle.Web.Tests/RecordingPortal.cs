using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests;

/// <summary>A portal with the small team of <see cref="TestTeam"/>: for tests that record something on a day of their own.</summary>
public sealed class RecordingPortal(PgAssembly server) : AgencyPortal(server)
{
    public TestTeam Team { get; private set; } = null!;

    /// <summary>A browser of that person ("odalys"), signed in; kept for the class.</summary>
    public Task<HttpClient> BrowserAsync(string person) => SignedInAsync($"{person}@tallowfern.example");

    protected override async Task FillAsync() => Team = await TestTeam.CreateAsync(Agency);
}
