using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Import;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Demonstration;

/// <summary>
/// Fills an empty database with the demonstration agency, laid around today: through the same import that an agency uses,
/// so that nothing in it could not have come from files but the words of <see cref="DemonstrationTeaching"/>, the conditions of
/// <see cref="DemonstrationGoals"/> and what people enter on pages (<see cref="DemonstrationCalendar"/>).
/// </summary>
public sealed class SeedDemonstration(Portal portal, ImportFolder import, TimeProvider clock, ClosePeriod close)
{
    public const string AgencyCode = "TALLOWFERN";
    private const string Zone = "America/Los_Angeles";

    /// <summary>Does nothing where any agency is there already.</summary>
    /// <returns>The demonstration agency with everything in it, also where it was there before; null where the database holds only others.</returns>
    /// <exception cref="InvalidOperationException">The demonstration's own files were refused: a fault of ours.</exception>
    public async Task<Scope?> RunAsync(CancellationToken stop = default)
    {
        var today = AgencyClock.Today(clock, Zone);
        var isEmpty = await AskAsync<bool>("select not exists (select from portal.agency_ids()) as \"Value\"", stop);
        if (isEmpty)
        {
            var result = await import.RunAsync(new(new DemonstrationFiles(new SchoolYear(today)).All(), AgencyCode), stop: stop);
            if (result.Problems.Count > 0)
                throw new InvalidOperationException("The demonstration's files were refused: " + string.Join(" ", result.Problems));
        }
        var agency = await AskAsync<int?>($"select portal.agency_id_of('{AgencyCode}') as \"Value\"", stop);
        if (agency is not { } id)
            return null;
        var scope = await ScopeAsync(id, stop);
        await AddTeachingAsync(scope, today, stop);
        if (isEmpty)
        {
            await new DemonstrationCalendar(portal, clock, scope, new SchoolYear(today)).AddAsync(stop);
            await new DemonstrationDisputes(portal, new ReadCaller(portal, clock), scope, clock, new SchoolYear(today)).AddAsync(stop);
            await new DemonstrationReports(portal, new ReadCaller(portal, clock), scope, clock).AddAsync(stop);
            await new DemonstrationFamily(portal, new ReadCaller(portal, clock), scope, clock).AddAsync(today, stop);
            await new DemonstrationThings(portal, new ReadCaller(portal, clock), scope, clock, new SchoolYear(today)).AddAsync(stop);
            await new DemonstrationMail(portal, clock, scope).AddAsync(stop);
            await new DemonstrationClosing(portal, close, new ReadCaller(portal, clock), scope).AddAsync(stop);
            await new DemonstrationPeople(portal, new ReadCaller(portal, clock), scope, clock).AddAsync(today, stop);
            await new DemonstrationDebts(portal, clock, scope, new SchoolYear(today)).AddAsync(stop);
            await new DemonstrationPapers(portal, new ReadCaller(portal, clock), scope, clock).AddAsync(stop);
        }
        return scope;
    }

    private async Task AddTeachingAsync(Scope scope, LocalDate today, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, stop: stop);
        if (await work.Db.TeachParts.AnyAsync(p => p.AgencyId == scope.AgencyId, stop))
            return;
        await new DemonstrationTeaching(work.Db, scope.AgencyId, today).AddAsync(stop);
        await new DemonstrationGoals(work.Db, scope.AgencyId, new SchoolYear(today)).AddAsync(stop);
        await work.CommitAsync(stop);
    }

    private async Task<Scope> ScopeAsync(int agency, CancellationToken stop)
    {
        var scope = new Scope(Wall.Agency, agency, 0, [], true, "the demonstration");
        var terminal = await portal.ReadAsync(scope, db => db.PersonRoles
            .Where(r => r.AgencyId == agency && r.Role == Role.Terminal).Select(r => r.PersonId).FirstAsync(stop), stop);
        return scope with { PersonId = terminal };
    }

    // Before an agency is known only the functions that list agencies answer.
    private Task<T> AskAsync<T>(string sql, CancellationToken stop) => portal.ReadAsync(
        new Scope(Wall.Agency, 0, 0, [], true, "the demonstration"), db => db.Database.SqlQueryRaw<T>(sql).SingleAsync(stop), stop);
}
