using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Moves;

/// <summary>
/// Sets somebody's last day. Their roles and relations end with it, so that from the next day on they can do nothing here, whatever is decided by then;
/// who manages a learner is handed over, because a learner always has a case manager.
/// </summary>
public sealed class SetLastDay(Portal portal)
{
    public sealed record Input
    {
        public int Person { get; init; }
        public LocalDate? Day { get; init; }
    }

    public sealed record Saved(int Person, LocalDate Day);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default)
    {
        if (!caller.Is(Role.Administrator))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.Person == caller.PersonId)
            return Outcome<Saved>.Refused("", "Another administrator sets your last day.");
        return await portal.WriteAsync(Scope.WholeAgency(caller, "a last day"), Operation.Of(operation, nameof(SetLastDay), input),
            db => WorkAsync(db, caller, operation, input, stop), stop);
    }

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        var roles = await db.PersonRoles.Where(r => r.AgencyId == agency && r.PersonId == input.Person).ToListAsync(stop);
        if (roles.Exists(r => r.Role == Role.Terminal) || !await db.People.AnyAsync(p => p.AgencyId == agency && p.Id == input.Person && p.EndedAt == null, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (await db.LastDays.AnyAsync(d => d.AgencyId == agency && d.PersonId == input.Person, stop))
            return Outcome<Saved>.Refused("Day", "A last day is set already. Take that back first.");
        Problem[] problems = [.. LastDayRules.Check(input.Day, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var day = input.Day!.Value;
        foreach (var role in roles.Where(r => LastDayRules.Ends(r.Role) && (r.ToDay is null || r.ToDay > day)))
            role.ToDay = day < role.FromDay ? role.FromDay.PlusDays(-1) : day;
        await EndRelationsAsync(db, agency, input.Person, day, stop);
        db.Add(new LastDayRow { AgencyId = agency, PersonId = input.Person, Day = day, SetBy = caller.PersonId, Operation = operation });
        return Outcome<Saved>.Of(new(input.Person, day));
    }

    private static async Task EndRelationsAsync(PortalDb db, int agency, int person, LocalDate day, CancellationToken stop)
    {
        var relations = await db.Relations.Where(r => r.AgencyId == agency && r.PersonId == person && (r.ToDay == null || r.ToDay > day)).ToListAsync(stop);
        foreach (var relation in relations.Where(r => LastDayRules.Ends(r.Kind)))
            relation.EndOn(db, day, "last day in the agency");
    }
}
