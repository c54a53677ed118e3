using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Enters a closure, or an extra day, in the agency's calendar.</summary>
public sealed class AddClosure(Portal portal)
{
    public sealed class Input
    {
        public string? Name { get; set; }
        public ClosureKind Kind { get; set; } = ClosureKind.Unscheduled;
        public LocalDate? FirstDay { get; set; }
        public LocalDate? LastDay { get; set; }
        public string? Reason { get; set; }

        internal ClosureEntry Entry => new(Name, Kind, FirstDay, LastDay, Reason);
    }

    public sealed record Saved(int Days);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.Administrator)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "closures of the calendar"), Operation.Of(operation, nameof(AddClosure), input),
                db => WorkAsync(db, caller.AgencyId, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var checkedDays = await CheckAsync(db, agency, input.Entry, stop);
        if (checkedDays.Value is not { } days)
            return Outcome<Saved>.Refused(checkedDays.Problems);
        return await StoreAsync(db, agency, days, input.Reason!, stop) is { } closed
            ? Outcome<Saved>.Refused(closed)
            : Outcome<Saved>.Of(new(days.Count));
    }

    /// <summary>The days that would be entered, or what stands in the way.</summary>
    internal static async Task<Outcome<IReadOnlyList<NewClosure>>> CheckAsync(PortalDb db, int agency, ClosureEntry entry, CancellationToken stop)
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        var taken = await db.Closures.Where(c => c.AgencyId == agency && c.Live).Select(c => c.OnDay).ToListAsync(stop);
        return ClosureRules.Check(entry, row.IsOrdinary, taken.ToHashSet());
    }

    internal static async Task<Problem?> StoreAsync(PortalDb db, int agency, IReadOnlyList<NewClosure> days, string reason, CancellationToken stop)
    {
        if (await ClosedCounts.FindAsync(db, agency, null, [.. days.Select(d => new DateInterval(d.OnDay, d.OnDay))], stop) is { } closed)
            return closed;
        db.AddRange(days.Select(d => new ClosureRow { AgencyId = agency, OnDay = d.OnDay, Name = d.Name, Kind = d.Kind, Reason = reason.Trim() }));
        return null;
    }
}
