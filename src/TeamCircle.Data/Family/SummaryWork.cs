using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Family;

/// <summary>What the acts on a summary share.</summary>
internal static class SummaryWork
{
    public static readonly Problem AnotherDraft = new("", "A draft is being written already. Publish it or throw it away first.");

    public static readonly Problem NotADraft = new("", "It is published, so it changes no more. Correct it by another edition.");

    /// <summary>The first name of a child; null where the scope reaches none.</summary>
    public static async Task<string?> ChildAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop))?.Split(' ')[0];

    public static Task<bool> HasDraftAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        db.FamilySummaries.AnyAsync(s => s.AgencyId == agency && s.LearnerId == learner && s.PublishedAt == null, stop);

    /// <summary>For whoever may write it; null otherwise, and where there is none of that id.</summary>
    public static async Task<FamilySummaryRow?> FindAsync(PortalDb db, Caller caller, int learner, int summary, CancellationToken stop) =>
        SummaryRules.MayWrite(caller, learner)
            ? await db.FamilySummaries.SingleOrDefaultAsync(s => s.AgencyId == caller.AgencyId && s.LearnerId == learner && s.Id == summary, stop) : null;
}
