using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Calendar;

/// <summary>A learner's times away, the latest first.</summary>
/// <param name="MayEnter">Whether the reader may say that the learner is away.</param>
public sealed record AwayPage(string Learner, bool MayEnter, IReadOnlyList<AwayShown> Aways);

/// <param name="CalledOff">How many visits it calls off.</param>
/// <param name="SchoolDays">School days from the first day to the last, or to today while it is open.</param>
/// <param name="AsksToMeet">Open for longer than the agency set: the team should meet.</param>
public sealed record AwayShown(
    int Id, int Version, AwayReason Reason, LocalDate FromDay, LocalDate? UntilDay, string? Note, bool Live, string By, int CalledOff, int SchoolDays, bool AsksToMeet);

/// <param name="SchoolDays">School days since it began, today among them.</param>
public sealed record OpenAway(int LearnerId, string Learner, AwayReason Reason, LocalDate FromDay, int SchoolDays);

/// <summary>Reads when a learner is away.</summary>
public sealed class ReadAways(Portal portal)
{
    /// <summary>Null where the scope does not reach such a learner.</summary>
    public Task<AwayPage?> RunAsync(Scope scope, Caller caller, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, caller, learner, stop), stop);

    /// <summary>Open times away of the learners in reach that have lasted for the agency's set number of school days, the longest first.</summary>
    internal static async Task<IReadOnlyList<OpenAway>> OpenAsync(PortalDb db, int agency, LocalDate asOf, CancellationToken stop)
    {
        var open = await db.Aways.Where(a => a.AgencyId == agency && a.Live && a.UntilDay == null && a.FromDay <= asOf)
            .Join(db.Learners, a => new { a.AgencyId, Id = a.LearnerId }, l => new { l.AgencyId, l.Id }, (a, l) => new { Away = a, l.Name }).ToListAsync(stop);
        if (open.Count == 0)
            return [];
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        return [.. open.Select(o => new OpenAway(o.Away.LearnerId, o.Name, o.Away.Reason, o.Away.FromDay, Days(rules, o.Away.FromDay, asOf)))
            .Where(o => o.SchoolDays >= rules.Agency.AwayMeetingDays).OrderByDescending(o => o.SchoolDays)];
    }

    private static async Task<AwayPage?> FindAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        if (await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var aways = await db.Aways.Where(a => a.AgencyId == caller.AgencyId && a.LearnerId == learner).OrderByDescending(a => a.FromDay).ToListAsync(stop);
        var counts = await db.Visits.Where(v => v.AgencyId == caller.AgencyId && v.LearnerId == learner && v.AwayId != null && v.Live)
            .GroupBy(v => v.AwayId!.Value).Select(g => new { Away = g.Key, Visits = g.Count() }).ToDictionaryAsync(g => g.Away, g => g.Visits, stop);
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var rules = await AgencyRules.ReadAsync(db, caller.AgencyId, stop);
        return new(name, CalendarRules.MayEnterAway(caller, learner), [.. aways.Select(a => Show(a, counts.GetValueOrDefault(a.Id), names, rules, caller.Today))]);
    }

    private static AwayShown Show(AwayRow a, int visits, Dictionary<int, string> names, AgencyRules rules, LocalDate today)
    {
        var days = Days(rules, a.FromDay, a.UntilDay ?? today);
        return new(a.Id, a.Version, a.Reason, a.FromDay, a.UntilDay, a.Note, a.Live, names.GetValueOrDefault(a.RecordedBy, "somebody"), visits, days,
            a.Live && a.UntilDay is null && days >= rules.Agency.AwayMeetingDays);
    }

    private static int Days(AgencyRules rules, LocalDate first, LocalDate last) =>
        first > last ? 0 : rules.Calendar.For(LineTerms.Both).Instructional(DateRange.Of(first, last));
}
