using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>Which learner a page is about, from what its address names.</summary>
internal static class FindLearner
{
    /// <summary>What an address led to.</summary>
    /// <param name="Learner">Null where it is no learner's record.</param>
    public sealed record Target(int? Learner);

    /// <summary>Null where the agency has no such thing, or the id can't be one.</summary>
    public static async Task<Target?> InAsync(PortalDb db, int agency, Subject subject, string? id, CancellationToken stop)
    {
        if (subject is Subject.None or Subject.Learners)
            return new Target(null);
        if (subject is Subject.Visit or Subject.Session or Subject.Probe or Subject.Practice)
            return Guid.TryParse(id, out var longId) ? await OneAsync(ByLongId(db, agency, subject, longId), stop) : null;
        if (!int.TryParse(id, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            return null;
        if (subject is Subject.Person)
            return await db.People.AnyAsync(r => r.AgencyId == agency && r.Id == number, stop) ? new Target(null) : null;
        return await OneAsync(ByNumber(db, agency, subject, number), stop);
    }

    private static async Task<Target?> OneAsync(IQueryable<int> learners, CancellationToken stop) =>
        await learners.Select(l => (int?)l).SingleOrDefaultAsync(stop) is { } learner ? new Target(learner) : null;

    private static IQueryable<int> ByNumber(PortalDb db, int agency, Subject subject, int id) => subject switch
    {
        Subject.Learner => db.Learners.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.Id),
        Subject.Service => db.Services.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Goal => db.Goals.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Routine => db.Routines.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Report => db.Reports.IgnoreQueryFilters().Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Decision => db.Decisions.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        _ => throw new ArgumentOutOfRangeException(nameof(subject), subject, "Not a subject with a number."),
    };

    private static IQueryable<int> ByLongId(PortalDb db, int agency, Subject subject, Guid id) => subject switch
    {
        Subject.Visit => db.Visits.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Session => db.Sessions.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Practice => db.Practices.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        Subject.Probe => db.Probes.Where(r => r.AgencyId == agency && r.Id == id).Select(r => r.LearnerId),
        _ => throw new ArgumentOutOfRangeException(nameof(subject), subject, "Not a subject with a long id."),
    };
}
