using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Names;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Names;

/// <summary>Changes a person's name from a day on, on a paper. What they signed before keeps the name of then.</summary>
public sealed class RenamePerson(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Person { get; init; }
        public int Version { get; init; }
        public string? Name { get; init; }
        public LocalDate? FromDay { get; init; }
        public string? Paper { get; init; }
    }

    public sealed record Saved(int Person);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => caller.Is(Role.Administrator)
        ? await portal.WriteAsync(Scope.WholeAgency(caller, "people"), Operation.Of(operation, nameof(RenamePerson), input), db => WorkAsync(db, caller, input, stop), stop)
        : Outcome<Saved>.Refused(Problem.NotFound);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.People.SingleOrDefaultAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Person, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var last = await db.PersonNames.Where(n => n.AgencyId == caller.AgencyId && n.PersonId == row.Id).MaxAsync(n => (LocalDate?)n.UntilDay, stop);
        List<Problem> problems = [.. NameRules.Check(input.Name, input.FromDay, input.Paper, last, caller.Today)];
        if (problems.Count == 0 && input.Name!.Trim() == row.Name)
            problems.Add(new(nameof(input.Name), "That is the name that stands."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        db.Add(new PersonNameRow
        {
            AgencyId = caller.AgencyId,
            PersonId = row.Id,
            Name = row.Name,
            UntilDay = input.FromDay!.Value,
            Paper = input.Paper!.Trim(),
            ChangedBy = caller.PersonId,
            ChangedAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        });
        row.Name = input.Name!.Trim();
        return Outcome<Saved>.Of(new(row.Id));
    }
}
