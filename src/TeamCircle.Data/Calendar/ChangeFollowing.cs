using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Changes a visit of a series and all that follow. Visits that were changed by themselves or logged stay as they are, and are listed.</summary>
public sealed class ChangeFollowing(Portal portal)
{
    public sealed record Input : SeriesInput
    {
        /// <summary>The first visit that is to change; its version is checked.</summary>
        public Guid Visit { get; init; }
        public int Version { get; init; }
    }

    public Task<Outcome<SeriesSaved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(ChangeFollowing), input), async db =>
        {
            var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
            return found.Value is { } visit
                ? await SeriesChange.RunAsync(db, caller, visit, LocalDate.Max(visit.OriginalStart?.Date ?? visit.OnDay, caller.Today), input, stop)
                : Outcome<SeriesSaved>.Refused(found.Problems);
        }, stop);
}
