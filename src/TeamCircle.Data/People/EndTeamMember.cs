using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Gives a relation to a learner another last day, or takes it back as if it had never been. Rights end at once.</summary>
public sealed class EndTeamMember(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Relation { get; set; }
        public int Version { get; set; }

        /// <summary>Null with <see cref="TakeBack"/>.</summary>
        public LocalDate? LastDay { get; set; }
        public bool TakeBack { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Learner);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        RelationRules.MayWrite(caller, input.Learner, Core.People.Relation.CaseManager)
            ? await portal.WriteAsync(AddTeamMember.ScopeFor(caller, input.Learner), Operation.Of(operation, nameof(EndTeamMember), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var standing = await AddTeamMember.StandingAsync(db, caller.AgencyId, input.Learner, stop);
        if (standing.SingleOrDefault(r => r.Id == input.Relation) is not { } row || !RelationRules.MayWrite(caller, input.Learner, row.Kind))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (!input.TakeBack && input.LastDay is null)
            return Outcome<Saved>.Refused("LastDay", "Give the last day.");
        var others = standing.Where(r => r.Id != row.Id).Select(AddTeamMember.Dates);
        Problem[] problems = [.. RelationRules.CheckEnd(
            AddTeamMember.Dates(row), input.TakeBack ? null : input.LastDay, input.Reason, caller.Today, others)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        if (!input.TakeBack)
            db.Add(new RelationRow
            {
                AgencyId = row.AgencyId,
                LearnerId = row.LearnerId,
                PersonId = row.PersonId,
                Kind = row.Kind,
                FromDay = row.FromDay,
                ToDay = input.LastDay,
                SupervisorId = row.SupervisorId,
                Ground = row.Ground,
            });
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
