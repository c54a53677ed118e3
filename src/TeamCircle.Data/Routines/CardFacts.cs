using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>A review with who gave it.</summary>
internal sealed record NamedReview(int Routine, GivenReview Given, int PersonId, string By, Discipline As, string? Note);

/// <summary>The newest card of a routine, and where its review stands.</summary>
/// <param name="By">Who gave the review that it speaks of; null without one.</param>
internal sealed record StandingCard(int Routine, int Learner, int VersionId, int Number, RoutineContent Content, ReviewStanding Review, NamedReview? By);

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
