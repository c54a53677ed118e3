using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>A family says with one tap how it was today with a routine that is for home. One answer a day, card and person: another tap takes its place.</summary>
/// <remarks>It is never scored, timed or compared, and gives no minutes and no number to a goal.</remarks>
public sealed class TapAtHome(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Routine { get; init; }
        public HomeAnswer? Answer { get; init; }
    }

    public sealed record Saved(int Tap);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(TapAtHome), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (input.Answer is not { } answer || !Enum.IsDefined(answer) || !await ReadHomeTaps.MayTapAsync(db, caller, input.Learner, stop)
            || !(await ReadHomeTaps.ForHomeAsync(db, caller, input.Learner, stop)).Any(r => r.Id == input.Routine))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var before = await ReadHomeTaps.Own(db, caller, input.Learner).SingleOrDefaultAsync(h => h.RoutineId == input.Routine && h.OnDay == caller.Today, stop);
        if (before?.Answer == answer)
            return Outcome<Saved>.Of(new(before.Id));
        if (before is not null)
        {
            (before.Live, before.TakenBackReason) = (false, "tapped otherwise");
            await db.SaveChangesAsync(stop); // one stands a day: the other goes first
        }
        var row = new HomeLogRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            RoutineId = input.Routine,
            OnDay = caller.Today,
            Who = caller.Name,
            Answer = answer,
            RecordedBy = caller.PersonId,
            ByFamily = true,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
