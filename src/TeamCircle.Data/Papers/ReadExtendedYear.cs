using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Papers;

/// <summary>All that is on record about a learner's extended school year.</summary>
/// <param name="Decisions">The one that is open first, then the latest; those that do not stand any more too.</param>
/// <param name="Terms">The extended terms of the calendar that are not over, by day.</param>
/// <param name="Services">The learner's services that run in extended terms and are not over.</param>
/// <param name="Goals">Goals that are not over, to be named.</param>
public sealed record ExtendedYearPage(
    int LearnerId, string Learner, IReadOnlyList<ExtendedYearShown> Decisions, IReadOnlyList<TermShown> Terms, IReadOnlyList<SummerService> Services,
    IReadOnlyList<GoalNamed> Goals, bool MayKeep)
{
    /// <summary>Null where nothing is to be decided.</summary>
    public ExtendedYearShown? Open => Decisions.FirstOrDefault(d => d is { Answer: null, TakenBack: null });
}

/// <param name="Goals">The goals named, by their headings.</param>
/// <param name="TakenBack">Why it does not stand; null where it does.</param>
public sealed record ExtendedYearShown(
    int Id, int Version, LocalDate DecideBy, ExtendedYearAnswer? Answer, LocalDate? DecidedOn, string? Reason, string? TookPart, LocalDate? FamilyToldOn,
    IReadOnlyList<string> Goals, string? TakenBack);

public sealed record TermShown(string Name, LocalDate FirstDay, LocalDate LastDay);

/// <summary>A service that runs in extended terms, with the amount of its last version.</summary>
public sealed record SummerService(int Id, Discipline Discipline, LocalDate From, LocalDate To, int Minutes, int? MinutesTo, int? Sessions, Every Every);

public sealed record GoalNamed(int Id, string Area, string Statement);

/// <summary>Reads what is on record about an extended school year.</summary>
public sealed class ReadExtendedYear(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<ExtendedYearPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var (agency, today) = (scope.AgencyId, caller.Today);
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var goals = await db.Goals.IgnoreQueryFilters().Where(g => g.AgencyId == agency && g.LearnerId == learner).OrderBy(g => g.Position).ThenBy(g => g.Id)
            .Select(g => new { g.Id, g.Area, g.Statement, g.ToDay, g.Live }).ToListAsync(stop);
        var rows = await db.ExtendedYears.IgnoreQueryFilters().Where(e => e.AgencyId == agency && e.LearnerId == learner).ToListAsync(stop);
        var terms = await db.Terms.Where(t => t.AgencyId == agency && t.Kind == TermKind.Extended && t.LastDay >= today).OrderBy(t => t.FirstDay)
            .Select(t => new TermShown(t.Name, t.FirstDay, t.LastDay)).ToListAsync(stop);
        return new ExtendedYearPage(
            learner, name,
            [.. rows.OrderBy(e => !e.Live).ThenBy(e => e.Answer is not null).ThenByDescending(e => e.Id).Select(e => new ExtendedYearShown(
                e.Id, e.Version, e.DecideBy, e.Answer, e.DecidedOn, e.Reason, e.TookPart, e.FamilyToldOn, [.. goals.Where(g => e.Goals.Contains(g.Id)).Select(g => g.Area)], e.TakenBackReason))],
            terms, await ServicesAsync(db, agency, learner, today, stop),
            [.. goals.Where(g => g.Live && g.ToDay >= today).Select(g => new GoalNamed(g.Id, g.Area, g.Statement))], ExtendedYears.MayKeep(caller, learner));
    }, stop);

    private static async Task<IReadOnlyList<SummerService>> ServicesAsync(PortalDb db, int agency, int learner, LocalDate today, CancellationToken stop)
    {
        var rows = await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner && s.Terms != LineTerms.Regular && s.ToDay >= today)
            .OrderBy(s => s.Position).ThenBy(s => s.Id)
            .Select(s => new { Row = s, Last = db.ServiceVersions.Where(v => v.AgencyId == s.AgencyId && v.ServiceId == s.Id).OrderByDescending(v => v.FromDay).FirstOrDefault() }).ToListAsync(stop);
        return [.. rows.Where(r => r.Last is not null).Select(r => new SummerService(
            r.Row.Id, r.Row.Discipline, r.Row.FromDay, r.Row.ToDay, r.Last!.Quantity, r.Last.QuantityTo, r.Last.Sessions, new Every(r.Row.EveryUnit, r.Row.EveryCount)))];
    }
}
