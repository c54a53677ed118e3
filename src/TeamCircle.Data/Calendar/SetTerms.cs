using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Sets the terms of the agency's calendar, all at once. What changes is a new row; the old one stays, taken back.</summary>
public sealed class SetTerms(Portal portal)
{
    public sealed class Input
    {
        public List<DatedListRow> Rows { get; set; } = [];
        public string? Reason { get; set; }

        /// <summary>What the form began on.</summary>
        public string? Stamp { get; set; }
    }

    /// <param name="Added">How many terms are new or changed.</param>
    public sealed record Saved(int Added, int TakenBack);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "terms of the calendar", Operation.Of(operation, nameof(SetTerms), input),
            db => WorkAsync(db, caller, input, stop), stop);

    internal static DatedListRow Show(TermRow row) =>
        new() { Id = row.Id, Name = row.Name, FirstDay = row.FirstDay, LastDay = row.LastDay, Kind = row.Kind };

    internal static string Stamp(IEnumerable<TermRow> rows) => DatedList<TermRow>.Stamp(rows, r => r.Id);

    /// <summary>What saving would do to the statuses; the reason may still be missing.</summary>
    public Task<Outcome<StatusPreview>> PreviewAsync(Caller caller, Input input, CancellationToken stop = default) =>
        portal.PreviewSettingsAsync(caller, "terms of the calendar",
            db => WorkAsync(db, caller, new() { Rows = input.Rows, Stamp = input.Stamp, Reason = "a look ahead" }, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        var figures = await KeepClosedFigures.BeginAsync(db, agency, caller.Today, stop);
        var standing = await db.Terms.Where(t => t.AgencyId == agency).OrderBy(t => t.FirstDay).ToListAsync(stop);
        if (Stamp(standing) != (input.Stamp ?? ""))
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        var list = new DatedList<TermRow>(standing, input.Rows, Show);
        Problem[] problems = [.. list.Problems(input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, null, list.ChangedDays, stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        var (takenBack, added) = (list.TakenBack, list.Added);
        foreach (var row in takenBack)
            (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        await db.SaveChangesAsync(stop); // the old row gives up its name first
        db.AddRange(added.Select(row => new TermRow
        {
            AgencyId = agency,
            Name = row.Name!.Trim(),
            FirstDay = row.FirstDay!.Value,
            LastDay = row.LastDay!.Value,
            Kind = row.Kind,
        }));
        return await figures.CheckAsync(stop) is { } changed ? Outcome<Saved>.Refused(changed) : Outcome<Saved>.Of(new(added.Count, takenBack.Count));
    }
}
