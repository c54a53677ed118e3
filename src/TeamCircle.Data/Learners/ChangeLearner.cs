using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Changes a learner's code, name, most minutes a day and sending district.</summary>
public sealed class ChangeLearner(Portal portal)
{
    public sealed class Input : ILearnerFields
    {
        public int Learner { get; set; }
        public int Version { get; set; }
        public string? Code { get; set; }
        public string? Name { get; set; }
        public int? MostMinutesADay { get; set; }
        public string? SendingDistrict { get; set; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(ChangeLearner), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == agency && l.Id == input.Learner, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. LearnerRules.Check(input.Code, input.Name, input.MostMinutesADay, input.SendingDistrict)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Touch(row, input.Version);
        (row.Code, row.Name, row.MostMinutesADay) = (input.Code!.Trim(), input.Name!.Trim(), input.MostMinutesADay!.Value);
        row.SendingDistrict = LearnerRow.District(input.SendingDistrict);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
