using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>The agency's calendar as its page shows it.</summary>
/// <param name="Weekdays">The ordinary ones, Monday first.</param>
/// <param name="Terms">Oldest first, and what the form for them begins on.</param>
/// <param name="Closures">Closures and extra days that hold, oldest first.</param>
public sealed record CalendarPage(
    IReadOnlyList<IsoDayOfWeek> Weekdays, IsoDayOfWeek WeekStart, IReadOnlyList<DatedListRow> Terms, string TermsStamp,
    IReadOnlyList<ClosureView> Closures, IReadOnlyList<FederalHoliday> Offered, AwayMeeting AwayMeeting);

/// <summary>After how many school days a time away without an end asks the case manager to meet.</summary>
/// <param name="Version">Of the agency's row, for the form that changes it.</param>
public sealed record AwayMeeting(int Days, int Version);

public sealed record ClosureView(int Id, int Version, LocalDate OnDay, string Name, ClosureKind Kind, string? Reason);

/// <summary>Reads the agency's calendar, and the federal holidays that are not in it.</summary>
public sealed class ReadCalendar(Portal portal)
{
    public Task<CalendarPage> RunAsync(Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, scope.AgencyId, stop), stop);

    private static async Task<CalendarPage> FindAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        var terms = await db.Terms.Where(t => t.AgencyId == agency).OrderBy(t => t.FirstDay).ToListAsync(stop);
        var closures = await db.Closures.Where(c => c.AgencyId == agency && c.Live).OrderBy(c => c.OnDay)
            .Select(c => new ClosureView(c.Id, c.Version, c.OnDay, c.Name, c.Kind, c.Reason)).ToListAsync(stop);
        var weekdays = Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None && (row.Weekdays >> ((int)d - 1) & 1) == 1);
        return new([.. weekdays], row.WeekStart, [.. terms.Select(SetTerms.Show)], SetTerms.Stamp(terms), closures,
            await OfferHolidays.FindAsync(db, agency, stop), new(row.AwayMeetingDays, row.Version));
    }
}
