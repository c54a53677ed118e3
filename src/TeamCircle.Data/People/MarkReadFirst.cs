using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Says that the caller, who stands in today, has read how the learner is taught. Once a day and learner; saying it again changes nothing.</summary>
public sealed class MarkReadFirst(Portal portal)
{
    public sealed record Input(int Learner);

    public sealed record Saved(int Learner);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.IsStaff && caller.StandsIn(input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(MarkReadFirst), input), db => WorkAsync(db, caller, input.Learner, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    // Two pages that say it at once are one saying.
    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        await db.Database.ExecuteSqlAsync($"""
            insert into portal.read_firsts (agency_id, learner_id, person_id, on_day)
            values ({caller.AgencyId}, {learner}, {caller.PersonId}, {caller.Today}) on conflict do nothing
            """, stop);
        return Outcome<Saved>.Of(new(learner));
    }
}
