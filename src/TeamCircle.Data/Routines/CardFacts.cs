using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>A review with who gave it.</summary>
internal sealed record NamedReview(int Routine, GivenReview Given, int PersonId, string By, Discipline As, string? Note);

/// <summary>The newest card of a routine, and where its review stands.</summary>
/// <param name="By">Who gave the review that it speaks of; null without one.</param>
internal sealed record StandingCard(int Routine, int Learner, int VersionId, int Number, RoutineContent Content, ReviewStanding Review, NamedReview? By);

/// <param name="Until">The last day on which the review holds.</param>
internal sealed record ReviewDay(int Learner, int Routine, string Name, LocalDate Until);

/// <summary>Facts about cards that several reads need.</summary>
internal static class CardFacts
{
    /// <summary>One for each of the routines of which something is written.</summary>
    public static async Task<IReadOnlyList<StandingCard>> NewestAsync(PortalDb db, int agency, IReadOnlyCollection<int> routines, LocalDate today, CancellationToken stop)
    {
        var months = await db.Agencies.Where(a => a.Id == agency).Select(a => a.ReviewMonths).SingleAsync(stop);
        var reviews = (await ReviewsAsync(db, agency, routines, stop)).ToLookup(r => r.Routine);
        var newest = await db.RoutineVersions
            .Where(v => v.AgencyId == agency && routines.Contains(v.RoutineId)
                && !db.RoutineVersions.Any(later => later.AgencyId == v.AgencyId && later.RoutineId == v.RoutineId && later.Number > v.Number))
            .ToListAsync(stop);
        return [.. newest.Select(v =>
        {
            var content = RoutineContent.Read(v.Content);
            var standing = ReviewRules.Standing(content, v.Number, reviews[v.RoutineId].Select(r => r.Given), months, today);
            return new StandingCard(v.RoutineId, v.LearnerId, v.Id, v.Number, content, standing, reviews[v.RoutineId].FirstOrDefault(r => r.Given.Id == standing.Review?.Id));
        })];
    }

    /// <summary>The last day of the review on which each card that needs one stands, past days too. None where nobody has reviewed the card as it is: its routine says so.</summary>
    /// <param name="learners">Null: all of the agency.</param>
    public static async Task<IReadOnlyList<ReviewDay>> ReviewDaysAsync(PortalDb db, Together all, int agency, IReadOnlyCollection<int>? learners, LocalDate today)
    {
        var (isAll, of) = (learners is null, learners ?? []);
        var rows = await all.ListAsync(
            from g in db.RoutineReviews
            join v in db.RoutineVersions on new { g.AgencyId, Id = g.VersionId } equals new { v.AgencyId, v.Id }
            join r in db.Routines on new { v.AgencyId, Id = v.RoutineId } equals new { r.AgencyId, r.Id }
            join n in db.RoutineVersions on new { v.AgencyId, v.RoutineId } equals new { n.AgencyId, n.RoutineId }
            join a in db.Agencies on g.AgencyId equals a.Id
            where g.AgencyId == agency && r.Live && (isAll || of.Contains(r.LearnerId))
                && !db.RoutineVersions.Any(later => later.AgencyId == n.AgencyId && later.RoutineId == n.RoutineId && later.Number > n.Number)
            select new { r.LearnerId, v.RoutineId, r.Name, g.Id, v.Number, g.ReviewedOn, v.Content, Newest = n.Number, Card = n.Content, a.ReviewMonths });
        return [.. rows.GroupBy(r => r.RoutineId, (_, given) => given.ToList()).Select(given => (Of: given[0], Review: ReviewRules.Standing(
                RoutineContent.Read(given[0].Card), given[0].Newest, given.Select(g => new GivenReview(g.Id, g.Number, g.ReviewedOn, RoutineContent.Read(g.Content))), given[0].ReviewMonths, today)))
            .Where(s => s.Review.State != ReviewState.NotNeeded && s.Review.Until is not null)
            .Select(s => new ReviewDay(s.Of.LearnerId, s.Of.RoutineId, s.Of.Name, s.Review.Until!.Value))];
    }

    public static async Task<IReadOnlyList<NamedReview>> ReviewsAsync(PortalDb db, int agency, IReadOnlyCollection<int> routines, CancellationToken stop)
    {
        var rows = await (
            from r in db.RoutineReviews
            join v in db.RoutineVersions on new { r.AgencyId, Id = r.VersionId } equals new { v.AgencyId, v.Id }
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && routines.Contains(v.RoutineId)
            orderby r.Id
            select new { v.RoutineId, r.Id, v.Number, r.ReviewedOn, v.Content, r.PersonId, p.Name, r.Discipline, r.Note }).ToListAsync(stop);
        return [.. rows.Select(r => new NamedReview(
            r.RoutineId, new(r.Id, r.Number, r.ReviewedOn, RoutineContent.Read(r.Content)), r.PersonId, r.Name, r.Discipline, r.Note))];
    }
}
