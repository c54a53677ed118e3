using Microsoft.EntityFrameworkCore;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Commitments;

/// <summary>The portal with the sample world in it, on 2 October 2026, and an account for everybody.</summary>
public sealed class AuditSite(PgAssembly server) : AgencyPortal(server)
{
    /// <summary>A browser of the person with that address, signed in; kept for the class.</summary>
    public Task<HttpClient> BrowserAsync(string person) => SignedInAsync(person);

    public Task<int> ServiceAsync(string code) => Agency.Portal.ReadAsync(
        Agency.WholeAgency, db => db.Services.Where(s => s.Code == code).Select(s => s.Id).SingleAsync());

    public Task<int> GoalAsync(string code) => Agency.Portal.ReadAsync(
        Agency.WholeAgency, db => db.Goals.Where(g => g.Code == code).Select(g => g.Id).SingleAsync());

    protected override Task FillAsync() => SampleWorld.ImportAsync(Agency);
}
