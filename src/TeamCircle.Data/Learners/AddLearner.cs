using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Learners;

/// <summary>Takes a learner in: code, name, first plan, and the case manager who asks.</summary>
public sealed class AddLearner(Portal portal)
{
    public sealed class Input : ILearnerFields
    {
        public string? Code { get; set; }
        public string? Name { get; set; }
        public int? MostMinutesADay { get; set; }
        public string? SendingDistrict { get; set; }
        public LocalDate? StartDay { get; set; }
        public LocalDate? EndDay { get; set; }
    }

    public sealed record Saved(int Learner);

    // The row does not yet exist that a list of learners could hold: so the whole agency, on this ground.
    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.CaseManager)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "taking a learner in"), Operation.Of(operation, nameof(AddLearner), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        Problem[] problems =
        [
            .. LearnerRules.Check(input.Code, input.Name, input.MostMinutesADay, input.SendingDistrict),
            .. PlanRules.Check(input.StartDay, input.EndDay, []),
        ];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var learner = new LearnerRow
        {
            AgencyId = caller.AgencyId,
            Code = input.Code!.Trim(),
            Name = input.Name!.Trim(),
            MostMinutesADay = input.MostMinutesADay!.Value,
            SendingDistrict = LearnerRow.District(input.SendingDistrict),
        };
        db.Add(learner);
        await db.SaveChangesAsync(stop);
        db.Add(new PlanRow { AgencyId = caller.AgencyId, LearnerId = learner.Id, StartDay = input.StartDay!.Value, EndDay = input.EndDay!.Value });
        db.Add(new RelationRow { AgencyId = caller.AgencyId, LearnerId = learner.Id, PersonId = caller.PersonId, Kind = Relation.CaseManager, FromDay = caller.Today });
        return Outcome<Saved>.Of(new(learner.Id));
    }
}
