using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Takes a closure, or an extra day, out of the agency's calendar; the row stays with the reason. Visits that were cancelled for it are
/// planned again.</summary>
public sealed class TakeBackClosure(Portal portal)
{
    public sealed class Input
    {
        public int Closure { get; set; }
        public int Version { get; set; }
        public string? Reason { get; set; }
    }

    /// <param name="Back">How many visits are planned again.</param>
    /// <param name="Lost">How many could not be: their time was given to somebody else.</param>
    public sealed record Saved(LocalDate OnDay, int Back, int Lost);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "closures of the calendar", Operation.Of(operation, nameof(TakeBackClosure), input),
            db => WorkAsync(db, caller, input, stop), stop);

    /// <summary>What taking it back would do to the statuses; the reason may still be missing.</summary>
    public Task<Outcome<StatusPreview>> PreviewAsync(Caller caller, Input input, CancellationToken stop = default) =>
        portal.PreviewSettingsAsync(caller, "closures of the calendar",
            db => WorkAsync(db, caller, new() { Closure = input.Closure, Version = input.Version, Reason = "a look ahead" }, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        var figures = await KeepClosedFigures.BeginAsync(db, agency, caller.Today, stop);
        if (await db.Closures.SingleOrDefaultAsync(c => c.AgencyId == agency && c.Id == input.Closure && c.Live, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Reason)));
        if (await ClosedCounts.FindAsync(db, agency, null, [new(row.OnDay, row.OnDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.BeganOn(row, input.Version);
        (row.Live, row.TakenBackReason) = (false, input.Reason.Trim());
        await db.SaveChangesAsync(stop);
        var (back, lost) = row.OnDay < caller.Today ? (0, []) : await ClosureVisits.BringBackAsync(db, row, stop);
        return await figures.CheckAsync(stop) is { } changed ? Outcome<Saved>.Refused(changed) : Outcome<Saved>.Of(new(row.OnDay, back, lost.Count));
    }
}
