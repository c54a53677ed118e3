using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Changes all visits of a series from today on. What has been is never changed.</summary>
public sealed class ChangeAll(Portal portal)
{
    public sealed record Input : SeriesInput
    {
        /// <summary>Any visit of the series; its version is checked.</summary>
        public Guid Visit { get; init; }
        public int Version { get; init; }
    }

    public Task<Outcome<SeriesSaved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(ChangeAll), input), async db =>
        {
            var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
            return found.Value is { } visit
                ? await SeriesChange.RunAsync(db, caller, visit, await FirstAsync(db, caller, visit, stop), input, stop)
                : Outcome<SeriesSaved>.Refused(found.Problems);
        }, stop);

    // The first visit to come, not today: every second week goes on counting from a week that has one.
    private static async Task<LocalDate> FirstAsync(PortalDb db, Caller caller, VisitRow visit, CancellationToken stop)
    {
        var first = await db.Visits.Where(v => v.AgencyId == visit.AgencyId && v.SeriesId == visit.SeriesId && v.SeriesId != null && v.Live
            && v.State == VisitState.Planned && v.OnDay >= caller.Today).MinAsync(v => v.OriginalStart, stop);
        return LocalDate.Max(first?.Date ?? caller.Today, caller.Today);
    }
}
