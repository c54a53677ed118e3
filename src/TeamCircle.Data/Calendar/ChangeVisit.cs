using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Changes one visit: day, time, length, place. Its series stays as it is.</summary>
public sealed class ChangeVisit(Portal portal)
{
    public sealed record Input : VisitInput
    {
        public Guid Visit { get; init; }
        public int Version { get; init; }
        public LocalDate? OnDay { get; init; }
    }

    public sealed record Saved(Guid Visit, LocalDate OnDay);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(ChangeVisit), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
        if (found.Value is not { } visit)
            return Outcome<Saved>.Refused(found.Problems);
        var read = await (await VisitSpec.OfAsync(db, visit, stop)).WithAsync(db, input, stop);
        if (input.OnDay is not { } day || day < caller.Today)
            return Outcome<Saved>.Refused([.. read.Problems, new(nameof(input.OnDay), "Choose a day, today or later.")]);
        if (read.Value is not { } spec)
            return Outcome<Saved>.Refused(read.Problems);
        var problems = await PlannedVisit.MoveAsync(db, visit, spec, day, input.Confirmed, stop);
        return problems.Count > 0 ? Outcome<Saved>.Refused(problems) : Outcome<Saved>.Of(new(visit.Id, day));
    }
}
