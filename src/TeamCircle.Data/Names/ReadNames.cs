using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Names;

/// <summary>The names that somebody bears and bore.</summary>
/// <param name="Called">The name on pages.</param>
/// <param name="Legal">The name on documents.</param>
/// <param name="Former">The latest first.</param>
public sealed record NamesPage(int Id, string Called, string Legal, int Version, IReadOnlyList<FormerName> Former, bool MayChange);

/// <param name="UntilDay">The first day of the name after it.</param>
public sealed record FormerName(string Name, LocalDate UntilDay, string Paper, string ChangedBy);

/// <summary>Reads names. A former one is read on its own page only: by a learner's case manager, and by an administrator who said why.</summary>
public sealed class ReadNames(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<NamesPage?> OfLearnerAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == scope.AgencyId && l.Id == learner, stop) is not { } row)
            return null;
        var former = await (
            from n in db.LearnerNames
            join p in db.People on new { n.AgencyId, Id = n.ChangedBy } equals new { p.AgencyId, p.Id }
            where n.AgencyId == scope.AgencyId && n.LearnerId == learner
            orderby n.UntilDay descending, n.Id descending
            select new FormerName(n.Name, n.UntilDay, n.Paper, p.Name)).ToListAsync(stop);
        return new NamesPage(row.Id, row.Name, row.LegalName ?? row.Name, row.Version, former, caller.IsStaff && caller.Manages(learner));
    }, stop);

    /// <summary>Null where the agency has no such person.</summary>
    public Task<NamesPage?> OfPersonAsync(Scope scope, int person, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.People.SingleOrDefaultAsync(p => p.AgencyId == scope.AgencyId && p.Id == person, stop) is not { } row)
            return null;
        var former = await (
            from n in db.PersonNames
            join p in db.People on new { n.AgencyId, Id = n.ChangedBy } equals new { p.AgencyId, p.Id }
            where n.AgencyId == scope.AgencyId && n.PersonId == person
            orderby n.UntilDay descending, n.Id descending
            select new FormerName(n.Name, n.UntilDay, n.Paper, p.Name)).ToListAsync(stop);
        return new NamesPage(row.Id, row.Name, row.Name, row.Version, former, true);
    }, stop);

    /// <summary>The legal name of a learner on a day: what a document that was sealed on it bears.</summary>
    internal static Task<string> OnAsync(PortalDb db, int learner, LocalDate day, CancellationToken stop) =>
        db.Database.SqlQuery<string>($"select portal.learner_name_on({learner}, {day}) as \"Value\"").SingleAsync(stop);
}
