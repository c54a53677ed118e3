using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Sets how a person stands to a learner, between two days: what they may reach follows from it.</summary>
public sealed class AddTeamMember(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int? Person { get; set; }
        public Relation Kind { get; set; }
        public LocalDate? FromDay { get; set; }
        public LocalDate? ToDay { get; set; }
        public int? Supervisor { get; set; }
        public string? Ground { get; set; }
    }

    public sealed record Saved(int Learner);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        RelationRules.MayWrite(caller, input.Learner, input.Kind)
            ? await portal.WriteAsync(ScopeFor(caller, input.Learner), Operation.Of(operation, nameof(AddTeamMember), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    internal static Scope ScopeFor(Caller caller, int learner) => caller.Manages(learner)
        ? Scope.OfLearner(caller, learner, "case manager of the learner")
        : Scope.WholeAgency(caller, "administrator, naming a case manager");

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!await db.Learners.AnyAsync(l => l.AgencyId == caller.AgencyId && l.Id == input.Learner, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var roles = await ReadStaff.RolesAsync(db, caller.AgencyId, caller.Today, stop);
        var standing = await StandingAsync(db, caller.AgencyId, input.Learner, stop);
        var entry = new RelationEntry(input.Person, input.Kind, input.FromDay, input.ToDay, input.Supervisor, input.Ground);
        Problem[] problems = [.. RelationRules.Check(entry, new(roles, [.. standing.Select(Dates)]))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Add(new RelationRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            PersonId = input.Person!.Value,
            Kind = input.Kind,
            FromDay = input.FromDay!.Value,
            ToDay = input.ToDay,
            SupervisorId = input.Kind == Relation.Assistant ? input.Supervisor : null,
            Ground = input.Ground?.Trim(),
        });
        return Outcome<Saved>.Of(new(input.Learner));
    }

    internal static Task<List<RelationRow>> StandingAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        db.Relations.Where(r => r.AgencyId == agency && r.LearnerId == learner).ToListAsync(stop);

    internal static StandingDates Dates(RelationRow row) => new(row.PersonId, row.Kind, row.FromDay, row.ToDay);
}
