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

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.Administrator)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "working hours"), Operation.Of(operation, nameof(SetWorkingHours), input),
                db => WorkAsync(db, caller.AgencyId, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (!await db.People.AnyAsync(p => p.AgencyId == agency && p.Id == input.Person, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. input.Week.Problems()];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var from = input.Week.FromDay!.Value;
        foreach (var row in await db.WorkingHours.Where(h => h.AgencyId == agency && h.PersonId == input.Person && (h.ToDay == null || h.ToDay >= from)).ToListAsync(stop))
        {
            if (row.FromDay < from)
                row.ToDay = from.PlusDays(-1);
            else
                (row.Live, row.TakenBackReason) = (false, "replaced by other hours");
        }
        WorkingHoursRow[] rows = [.. input.Week.Read().Select(h => new WorkingHoursRow
        {
            AgencyId = agency, PersonId = input.Person, Weekday = h.Weekday, FromTime = h.Hours.From, ToTime = h.Hours.To, FromDay = from,
        })];
        db.AddRange(rows);
        return Outcome<Saved>.Of(new(input.Person, rows.Length));
    }
}
