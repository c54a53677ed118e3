using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Account;
using TeamCircle.Data.Family;
using TeamCircle.Data.People;
using TeamCircle.Data.Seed;

namespace TeamCircle.Benchmarks;

/// <param name="Service">Of the learner, as <paramref name="Goal"/>.</param>
internal sealed record LoadPerson(int Id, string Email, Role Role, int Learner, int Service, int Goal);

/// <summary>People of a made-up agency who can sign in: case managers, providers and families, from all over the agency.</summary>
internal static class LoadPeople
{
    /// <summary>Of each role.</summary>
    public const int Each = 8;

    public static Scope Whole(int agency) => new(Wall.Agency, agency, 0, [], true, "a benchmark");

    public static async Task<IReadOnlyList<LoadPerson>> FindAsync(IServiceProvider services, int agency)
    {
        var portal = services.GetRequiredService<Portal>();
        await AddFamiliesAsync(portal, agency);
        var people = new List<LoadPerson>();
        foreach (var role in new[] { Role.CaseManager, Role.Provider, Role.Family })
            people.AddRange(await portal.ReadAsync(Whole(agency), db => OfRoleAsync(db, agency, role)));
        return await LetInAsync(services, agency, people);
    }

    /// <summary>Gives them sign-ins, and returns them.</summary>
    public static async Task<IReadOnlyList<LoadPerson>> LetInAsync(IServiceProvider services, int agency, List<LoadPerson> people)
    {
        await using var scope = services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>().RunAsync(Whole(agency), isDevelopment: true, [.. people.Select(p => p.Email)], CancellationToken.None);
        return people;
    }

    private static async Task<IEnumerable<LoadPerson>> OfRoleAsync(PortalDb db, int agency, Role role)
    {
        var ids = await db.PersonRoles.Where(r => r.AgencyId == agency && r.Role == role).Select(r => r.PersonId).Order().ToListAsync();
        int[] chosen = [.. Enumerable.Range(0, Each).Select(i => ids[i * ids.Count / Each]).Distinct()];
        var found = await db.People.Where(p => p.AgencyId == agency && chosen.Contains(p.Id)).Select(p => new { p.Id, p.Email }).ToListAsync();
        var people = new List<LoadPerson>();
        foreach (var person in found)
        {
            var learner = await db.Relations.Where(r => r.AgencyId == agency && r.PersonId == person.Id).OrderBy(r => r.LearnerId).Select(r => r.LearnerId).FirstAsync();
            people.Add(new(person.Id, person.Email, role, learner,
                await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner).OrderBy(s => s.Position).Select(s => s.Id).FirstAsync(),
                await db.Goals.Where(g => g.AgencyId == agency && g.LearnerId == learner).OrderBy(g => g.Position).Select(g => g.Id).FirstAsync()));
        }
        return people;
    }

    /// <summary>The made-up rows have no families: some learners get one, with a summary to read.</summary>
    private static async Task AddFamiliesAsync(Portal portal, int agency)
    {
        var (known, terminal, learners) = await portal.ReadAsync(Whole(agency), async db => (
            await db.PersonRoles.CountAsync(r => r.AgencyId == agency && r.Role == Role.Family),
            await db.People.Where(p => p.AgencyId == agency && p.Email == "terminal").Select(p => p.Id).SingleAsync(),
            await db.Learners.Where(l => l.AgencyId == agency).Select(l => l.Id).Order().ToListAsync()));
        if (known >= Each)
            return;
        await using var work = await portal.OpenAsync(Whole(agency) with { PersonId = terminal }, IsolationLevel.ReadCommitted);
        for (var i = 0; i < Each; i++)
            await AddFamilyAsync(work.Db, agency, learners[i * learners.Count / Each], i, terminal);
        await work.CommitAsync();
    }

    private static async Task AddFamilyAsync(PortalDb db, int agency, int learner, int number, int writer)
    {
        var person = new PersonRow { AgencyId = agency, Email = $"family{number}.of{agency}@load.example", Name = $"Family {number}" };
        db.Add(person);
        await db.SaveChangesAsync();
        db.Add(new PersonRoleRow { AgencyId = agency, PersonId = person.Id, Role = Role.Family, FromDay = new(2026, 8, 1) });
        db.Add(new RelationRow { AgencyId = agency, PersonId = person.Id, LearnerId = learner, Kind = Relation.Family, FromDay = new(2026, 8, 1) });
        db.Add(new FamilySummaryRow
        {
            AgencyId = agency,
            LearnerId = learner,
            FirstDay = LoadSeed.AsOf.PlusDays(-30),
            LastDay = LoadSeed.AsOf.PlusDays(-2),
            BegunBy = writer,
            Content = new SummaryContent(new("We looked and reached."), new(), new("Ask for the towel."), new(), new(), []).Write(),
            PublishedBy = writer,
            PublishedAt = LoadSeed.AsOf.AtMidnight().InUtc().ToInstant(),
        });
        await db.SaveChangesAsync();
    }
}
