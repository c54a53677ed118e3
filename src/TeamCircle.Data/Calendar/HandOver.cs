using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Hands a visit, or it and all that follow, to a colleague on the learner's team.</summary>
public sealed class HandOver(Portal portal)
{
    public sealed record Input
    {
        public Guid Visit { get; init; }
        public int Version { get; init; }
        public int? To { get; init; }

        /// <summary>Also all that follow; visits that were changed by themselves stay.</summary>
        public bool Following { get; init; }
        public bool LeaveOut { get; init; }
        public bool Confirmed { get; init; }
    }

    /// <param name="Series">What became of the series; null where one visit was handed over.</param>
    public sealed record Saved(Guid Visit, string To, SeriesSaved? Series);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(HandOver), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
        if (found.Value is not { } visit)
            return Outcome<Saved>.Refused(found.Problems);
        if (input.To is not { } to || to == visit.ProviderId || !await VisitSpec.OnTeamAsync(db, caller, visit.LearnerId, to, stop))
            return Outcome<Saved>.Refused(nameof(input.To), "Choose somebody else who is on the learner's team.");
        var name = (await db.People.FindAsync([caller.AgencyId, to], stop))!.Name;
        if (input.Following && await PlannedVisit.SeriesAsync(db, visit, stop) is { } series)
            return await FollowingAsync(db, caller, visit, series, input, name, stop);
        var spec = (await VisitSpec.OfAsync(db, visit, stop)) with { Provider = to, Partner = visit.PartnerId == to ? null : visit.PartnerId };
        var problems = await PlannedVisit.MoveAsync(db, visit, spec, visit.OnDay, input.Confirmed, stop);
        visit.PartnerId = spec.Partner;
        return problems.Count > 0 ? Outcome<Saved>.Refused(problems) : Outcome<Saved>.Of(new(visit.Id, name, null));
    }

    private static async Task<Outcome<Saved>> FollowingAsync(
        PortalDb db, Caller caller, VisitRow visit, SeriesRow series, Input input, string name, CancellationToken stop)
    {
        var to = input.To!.Value;
        var spec = (await VisitSpec.OfAsync(db, series, stop)) with { Provider = to, Partner = series.PartnerId == to ? null : series.PartnerId };
        var from = LocalDate.Max(visit.OriginalStart!.Value.Date, caller.Today);
        var saved = await FollowingVisits.ReplaceAsync(
            db, series, spec, new(from, visit.Id, series.Rule, series.EndsOn), caller.Today, new(input.LeaveOut, input.Confirmed), stop);
        return saved.Value is { } next ? Outcome<Saved>.Of(new(next.First ?? visit.Id, name, next)) : Outcome<Saved>.Refused(saved.Problems);
    }
}
