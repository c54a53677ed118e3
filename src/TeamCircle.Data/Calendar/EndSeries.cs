using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Ends a series before one of its visits: that one and all that follow are not planned any more.</summary>
/// <remarks>They are no visits that were missed: without a plan in their place the service shows that something is still to plan.</remarks>
public sealed class EndSeries(Portal portal)
{
    public sealed record Input
    {
        /// <summary>The first visit that is not to be.</summary>
        public Guid Visit { get; init; }
        public int Version { get; init; }
    }

    public sealed record Saved(LocalDate LastDay, IReadOnlyList<KeptVisit> Kept);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(EndSeries), input), async db =>
        {
            var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
            if (found.Value is not { } visit)
                return Outcome<Saved>.Refused(found.Problems);
            if (await PlannedVisit.SeriesAsync(db, visit, stop) is not { } series)
                return Outcome<Saved>.Refused("", "This visit belongs to no series. Cancel it by itself.");
            var kept = await FollowingVisits.EndAsync(db, series, visit.OriginalStart!.Value.Date, visit.Id, stop);
            return Outcome<Saved>.Of(new(series.EndsOn!.Value, kept));
        }, stop);
}
