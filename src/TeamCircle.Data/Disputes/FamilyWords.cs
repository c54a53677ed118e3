using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Disputes;

/// <summary>What the family said, in its own words: a remark, or a parent's statement that travels with the entry (34 CFR 300.618 to 300.620).</summary>
/// <param name="VisitId">The visit that it is about; null: none.</param>
/// <param name="On">The day on which it was said or given.</param>
/// <param name="SaidBy">In words.</param>
/// <param name="EnteredBy">Who wrote it down; whoever said it, where the family typed it itself.</param>
public sealed record FamilyWord(Guid? VisitId, LocalDate On, string Words, string SaidBy, int EnteredBy, Instant At, bool IsStatement);

/// <summary>Reads <see cref="FamilyWord"/>s about some visits, and of the days of a span.</summary>
internal static class FamilyWords
{
    private sealed record Read(Guid? VisitId, LocalDate OnDay, string Words, string SaidBy, int EnteredBy, Instant At, bool IsStatement);

    public static async Task<IReadOnlyList<FamilyWord>> ReadAsync(
        PortalDb db, int agency, int learner, DateInterval days, Guid[] visits, CancellationToken stop) => [.. (await db.Database.SqlQuery<Read>(
        $"""
        select r.visit_id, r.said_on as on_day, r.words, r.said_by, r.entered_by, r.entered_at as at, false as is_statement
        from portal.family_remarks r
        where r.agency_id = {agency} and r.learner_id = {learner} and (r.visit_id = any ({visits}) or (r.visit_id is null and r.said_on between {days.Start} and {days.End}))
        union all
        select s.visit_id, s.given_on, s.words, s.given_by, s.entered_by, s.entered_at, true
        from portal.parent_statements s
        where s.agency_id = {agency} and s.learner_id = {learner} and (s.visit_id = any ({visits}) or (s.visit_id is null and s.given_on between {days.Start} and {days.End}))
        order by 6
        """).ToListAsync(stop)).Select(r => new FamilyWord(r.VisitId, r.OnDay, r.Words, r.SaidBy, r.EnteredBy, r.At, r.IsStatement))];
}
