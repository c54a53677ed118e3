using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Says in which hours a person works, from a day on. What held before stays for the days before.</summary>
public sealed class SetWorkingHours(Portal portal)
{
    public sealed class Input
    {
        public int Person { get; set; }
        public WeekInput Week { get; set; } = new();
    }

    public sealed record Saved(int Person, int Spans);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "working hours", Operation.Of(operation, nameof(SetWorkingHours), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (!await db.People.AnyAsync(p => p.AgencyId == agency && p.Id == input.Person, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. input.Week.Problems()];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var from = input.Week.FromDay!.Value;
        var standing = await db.WorkingHours.Where(h => h.AgencyId == agency && h.PersonId == input.Person && (h.ToDay == null || h.ToDay >= from)).ToListAsync(stop);
        var rows = input.Week.Replace(standing, () => new WorkingHoursRow { AgencyId = agency, PersonId = input.Person });
        db.AddRange(rows);
        return Outcome<Saved>.Of(new(input.Person, rows.Count));
    }
}
