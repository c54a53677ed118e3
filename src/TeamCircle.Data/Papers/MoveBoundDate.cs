using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Puts another day in the place of one, with the reason; or takes one back that should not stand. What stood stays to be read.</summary>
public sealed class MoveBoundDate(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int BoundDate { get; init; }
        public int Version { get; init; }

        /// <summary>The other day; null takes the old one back without another.</summary>
        public LocalDate? DueOn { get; init; }
        public bool TakeBack { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int BoundDate);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(MoveBoundDate), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadDates.FindAsync(db, caller, input.Learner, input.BoundDate, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.DoneOn is not null || !row.Live)
            return Outcome<Saved>.Refused("", "It is not open any more.");
        Problem[] problems = input.TakeBack ? [.. BoundDates.CheckReason(input.Reason)] : [.. BoundDates.CheckMove(input.DueOn, row.DueOn, input.Reason, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        if (input.TakeBack)
            return Outcome<Saved>.Of(new(row.Id));
        var moved = new BoundDateRow
        {
            AgencyId = row.AgencyId,
            LearnerId = row.LearnerId,
            Kind = row.Kind,
            FromDay = row.FromDay,
            DueOn = input.DueOn!.Value,
            RestsOn = row.RestsOn,
            Note = row.Note,
            RepeatMonths = row.RepeatMonths,
            FollowsId = row.Id,
            EnteredBy = caller.PersonId,
        };
        db.Add(moved);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(moved.Id));
    }
}
