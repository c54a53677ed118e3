using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// An agency's time zone changes. Visits to come keep their hours by the clock on the wall, in the new zone; what is past, and today, stays as
/// it was held. Days stay days: nothing that is counted moves.
/// </summary>
public sealed class ChangeTimeZone(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        /// <summary>Name in the tz database.</summary>
        public string? Zone { get; init; }
        public string? Reason { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    /// <param name="Zone">The agency's.</param>
    /// <param name="Now">By the clock there.</param>
    /// <param name="ToCome">Visits after today that keep their hours.</param>
    public sealed record Standing(string Zone, LocalDateTime Now, int ToCome, int Version);

    /// <param name="Moved">Visits to come that are in the new zone now.</param>
    public sealed record Saved(string Zone, int Moved);

    /// <summary>The zones that can be chosen, in order of their names.</summary>
    public static IEnumerable<string> Zones => DateTimeZoneProviders.Tzdb.Ids.Where(id => id.Contains('/', StringComparison.Ordinal) && !id.StartsWith("Etc/", StringComparison.Ordinal));

    public Task<Standing> ReadAsync(Caller caller, Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var agency = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        return new Standing(agency.TimeZone, AgencyClock.Now(clock, agency.TimeZone), await ToCome(db, caller).CountAsync(stop), agency.Version);
    }, stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "the agency's time zone", Operation.Of(operation, nameof(ChangeTimeZone), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        if (Problems(agency, input) is { Count: > 0 } problems)
            return Outcome<Saved>.Refused(problems);
        var zone = input.Zone!;
        db.BeganOn(agency, input.Version);
        agency.TimeZone = zone;
        await db.SaveChangesAsync(stop);
        var moved = await ToCome(db, caller).ExecuteUpdateAsync(v => v.SetProperty(r => r.Zone, zone), stop);
        await db.Series.Where(s => s.AgencyId == caller.AgencyId).ExecuteUpdateAsync(s => s.SetProperty(r => r.Zone, zone), stop);
        await db.HandedOver.Where(h => h.AgencyId == caller.AgencyId && h.OnDay > caller.Today).ExecuteUpdateAsync(h => h.SetProperty(r => r.Zone, zone), stop);
        var derived = await DeriveInstants.AfterAsync(db, caller.AgencyId, caller.Today, stop);
        return derived.Left.Count == 0 ? Outcome<Saved>.Of(new(zone, moved)) : Outcome<Saved>.Refused([.. derived.Left.Take(10).Select(Problem)]);
    }

    private static List<Problem> Problems(AgencyRow agency, Input input)
    {
        var problems = new List<Problem>();
        if (input.Zone is not { } zone || DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is null)
            problems.Add(new(nameof(input.Zone), "Choose a time zone."));
        else if (zone == agency.TimeZone)
            problems.Add(new(nameof(input.Zone), "That is the agency's time zone already."));
        if (string.IsNullOrWhiteSpace(input.Reason))
            problems.Add(new(nameof(input.Reason), "Say why."));
        return problems;
    }

    private static Problem Problem(DeriveInstants.Left left) => new("", string.Create(CultureInfo.InvariantCulture,
        $"The visit on {left.OnDay:uuuu-MM-dd} at {left.Start:HH:mm} cannot keep its hours: {left.Why}"));

    // Cancelled ones too: they stand in calendars that people subscribe to.
    private static IQueryable<VisitRow> ToCome(PortalDb db, Caller caller) =>
        db.Visits.Where(v => v.AgencyId == caller.AgencyId && v.OnDay > caller.Today && v.State != VisitState.Logged);
}
