using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Enters until when a licence of a person holds; renewed, it is entered again with its new last day. Or takes one back that does not stand, with the reason.</summary>
public sealed class KeepLicence(Portal portal)
{
    public sealed record Input
    {
        public int Person { get; init; }

        /// <summary>Which licence, in words; the same words for one that was renewed.</summary>
        public string? Name { get; init; }
        public LocalDate? UntilDay { get; init; }

        /// <summary>The licence that is taken back; null enters one.</summary>
        public int? TakeBack { get; init; }
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Licence);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => RoleRules.LooksAfterPeople(caller)
        ? await portal.WriteAsync(Scope.WholeAgency(caller, "people"), Operation.Of(operation, nameof(KeepLicence), input), db => WorkAsync(db, caller, input, stop), stop)
        : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (input.TakeBack is { } licence)
            return await TakeBackAsync(db, caller, input, licence, stop);
        if (!await db.People.AnyAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Person, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. Licences.Check(input.Name, input.UntilDay, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new LicenceRow { AgencyId = caller.AgencyId, PersonId = input.Person, Name = input.Name!.Trim(), UntilDay = input.UntilDay!.Value, EnteredBy = caller.PersonId };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private static async Task<Outcome<Saved>> TakeBackAsync(PortalDb db, Caller caller, Input input, int licence, CancellationToken stop)
    {
        if (await db.Licences.SingleOrDefaultAsync(l => l.AgencyId == caller.AgencyId && l.PersonId == input.Person && l.Id == licence, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. BoundDates.CheckReason(input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
