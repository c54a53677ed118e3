using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Lets somebody of the family, a nurse or an aide with a family's seat say on the family's page what was practised at home, or lets them no more.</summary>
public sealed class LetTapAtHome(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Person { get; init; }
        public bool Let { get; init; }
    }

    public sealed record Saved(bool Let);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.IsStaff && caller.Manages(input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(LetTapAtHome), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var seats = await db.Relations.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.PersonId == input.Person && r.Kind == Relation.Family
            && (r.ToDay == null || r.ToDay >= caller.Today)).ToListAsync(stop);
        if (seats.Count == 0)
            return Outcome<Saved>.Refused(Problem.NotFound);
        foreach (var seat in seats)
            seat.TapsAtHome = input.Let;
        return Outcome<Saved>.Of(new(input.Let));
    }
}
