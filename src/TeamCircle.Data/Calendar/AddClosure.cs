using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
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

        internal Input WithReason() => string.IsNullOrWhiteSpace(Reason)
            ? new() { Name = Name, Kind = Kind, FirstDay = FirstDay, LastDay = LastDay, Reason = "a look ahead" }
            : this;

        internal ClosureEntry Entry => new(Name, Kind, FirstDay, LastDay, Reason);
    }

    /// <param name="Visits">How many planned visits stand on these days.</param>
    public sealed record Saved(int Days, int Visits);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "closures of the calendar", Operation.Of(operation, nameof(AddClosure), input),
            db => WorkAsync(db, caller, input, stop), stop);

    /// <summary>What saving would do to the statuses; the reason may still be missing.</summary>
    public Task<Outcome<StatusPreview>> PreviewAsync(Caller caller, Input input, CancellationToken stop = default) =>
        portal.PreviewSettingsAsync(caller, "closures of the calendar",
            db => WorkAsync(db, caller, input.WithReason(), stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var checkedDays = await CheckAsync(db, caller.AgencyId, input.Entry, stop);
        if (checkedDays.Value is not { } days)
            return Outcome<Saved>.Refused(checkedDays.Problems);
        return await StoreAsync(db, caller, days, input.Reason!, stop) is { } closed
            ? Outcome<Saved>.Refused(closed)
            : Outcome<Saved>.Of(new(days.Count, await StandingAsync(db, caller, [.. days.Select(d => d.OnDay)], stop)));
    }

    private static async Task<int> StandingAsync(PortalDb db, Caller caller, LocalDate[] days, CancellationToken stop)
    {
        await db.SaveChangesAsync(stop);
        return await ClosureVisits.Standing(db, caller.AgencyId).CountAsync(v => v.OnDay >= caller.Today && days.Contains(v.OnDay), stop);
    }

    /// <summary>The days that would be entered, or what stands in the way.</summary>
    internal static async Task<Outcome<IReadOnlyList<NewClosure>>> CheckAsync(PortalDb db, int agency, ClosureEntry entry, CancellationToken stop)
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        var taken = await db.Closures.Where(c => c.AgencyId == agency && c.Live).Select(c => c.OnDay).ToListAsync(stop);
        return ClosureRules.Check(entry, row.IsOrdinary, taken.ToHashSet());
    }

    internal static async Task<Problem?> StoreAsync(PortalDb db, Caller caller, IReadOnlyList<NewClosure> days, string reason, CancellationToken stop)
    {
        if (await ClosedCounts.FindAsync(db, caller.AgencyId, null, [.. days.Select(d => new DateInterval(d.OnDay, d.OnDay))], stop) is { } closed)
            return closed;
        var figures = await KeepClosedFigures.BeginAsync(db, caller.AgencyId, caller.Today, stop);
        db.AddRange(days.Select(d => new ClosureRow { AgencyId = caller.AgencyId, OnDay = d.OnDay, Name = d.Name, Kind = d.Kind, Reason = reason.Trim() }));
        return await figures.CheckAsync(stop);
    }
}
