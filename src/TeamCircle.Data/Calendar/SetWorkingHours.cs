using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Says in which hours a person works, from a day on (what held before stays for the days before), and how many minutes of visits a day
/// make-up visits may bring them to.</summary>
public sealed class SetWorkingHours(Portal portal)
{
    public sealed class Input
    {
        public int Person { get; set; }
        public WeekInput Week { get; set; } = new();

        /// <summary>Null: as many as the hours hold. It holds at once, whatever the day of the hours.</summary>
        public int? MostMinutes { get; set; }
    }

    public sealed record Saved(int Person, int Spans);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "working hours", Operation.Of(operation, nameof(SetWorkingHours), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.People.SingleOrDefaultAsync(p => p.AgencyId == agency && p.Id == input.Person, stop) is not { } person)
            return Outcome<Saved>.Refused(Problem.NotFound);
        List<Problem> problems = [.. input.Week.Problems()];
        if (input.MostMinutes is < 1 or > 24 * 60)
            problems.Add(new(nameof(input.MostMinutes), "Give minutes from 1 to 1440, or leave it empty."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        person.MostMinutesADay = input.MostMinutes;
        var from = input.Week.FromDay!.Value;
        var standing = await db.WorkingHours.Where(h => h.AgencyId == agency && h.PersonId == input.Person && (h.ToDay == null || h.ToDay >= from)).ToListAsync(stop);
        var rows = input.Week.Replace(standing, () => new WorkingHoursRow { AgencyId = agency, PersonId = input.Person });
        db.AddRange(rows);
        return Outcome<Saved>.Of(new(input.Person, rows.Count));
    }
}
