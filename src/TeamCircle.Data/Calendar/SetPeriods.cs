using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Sets the agency's reporting periods, all at once. What changes is a new row; the old one stays, taken back.</summary>
public sealed class SetPeriods(Portal portal)
{
    public sealed class Input
    {
        public List<DatedListRow> Rows { get; set; } = [];
        public string? Reason { get; set; }

        /// <summary>What the form began on.</summary>
        public string? Stamp { get; set; }
    }

    /// <param name="Added">How many periods are new or changed.</param>
    public sealed record Saved(int Added, int TakenBack);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "reporting periods", Operation.Of(operation, nameof(SetPeriods), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    internal static DatedListRow Show(PeriodRow row) => new() { Id = row.Id, Name = row.Name, FirstDay = row.StartDay, LastDay = row.EndDay };

    internal static string Stamp(IEnumerable<PeriodRow> rows) => DatedList<PeriodRow>.Stamp(rows, r => r.Id);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var standing = await db.Periods.Where(p => p.AgencyId == agency).OrderBy(p => p.StartDay).ToListAsync(stop);
        if (Stamp(standing) != (input.Stamp ?? ""))
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        // The first policy holds from the beginning, whatever day it names.
        var policies = await db.Policies.Where(p => p.AgencyId == agency).OrderBy(p => p.FromDay).Select(p => p.FromDay).Skip(1).ToListAsync(stop);
        var list = new DatedList<PeriodRow>(standing, input.Rows, Show);
        Problem[] problems = [.. list.Problems(input.Reason), .. PolicyProblems(list.Added, policies)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        // Even a new name would change what a closed count says: the whole period is touched.
        DateInterval[] touched = [.. list.TakenBack.Select(p => new DateInterval(p.StartDay, p.EndDay))];
        if (await ClosedCounts.FindAsync(db, agency, null, touched, stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        var (takenBack, added) = (list.TakenBack, list.Added);
        foreach (var row in takenBack)
            (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        await db.SaveChangesAsync(stop); // the old row gives up its name and its days first
        db.AddRange(added.Select(row => new PeriodRow
        {
            AgencyId = agency,
            Name = row.Name!.Trim(),
            StartDay = row.FirstDay!.Value,
            EndDay = row.LastDay!.Value,
        }));
        return Outcome<Saved>.Of(new(added.Count, takenBack.Count));
    }

    /// <summary>A period is judged by one policy: none may begin inside it.</summary>
    private static IEnumerable<Problem> PolicyProblems(IEnumerable<DatedListRow> added, IReadOnlyList<LocalDate> policies) =>
        added.Where(row => policies.Any(from => row.FirstDay < from && from <= row.LastDay))
            .Select(row => new Problem("", $"A policy begins inside \"{row.Name?.Trim()}\": a reporting period has one policy. Take the policy back, or move the period."));
}
