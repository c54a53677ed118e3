using TeamCircle.Core.People;

namespace TeamCircle.Core.Reports;

/// <summary>Where a progress report stands.</summary>
public enum ReportState
{
    /// <summary>People write, join and sign.</summary>
    Open,

    /// <summary>The case manager has signed it: it changes no more.</summary>
    Finished,

    /// <summary>The family can read it.</summary>
    Shared,

    /// <summary>Another edition stands in its place.</summary>
    Replaced,
}

/// <summary>Somebody who has a part in a report.</summary>
/// <param name="Goals">The goals that they own on some day of the period.</param>
/// <param name="HasSigned">Whether they signed what stands now.</param>
public sealed record ReportOwner(int PersonId, IReadOnlyList<int> Goals, bool HasSigned);

/// <summary>Who writes, joins, signs and shares a progress report, and what must be there first (34 CFR 300.320(a)(3)).</summary>
public static class ReportRules
{
    public const int LongestWords = 4000, LongestReason = 400, LongestCredential = 200;

    /// <summary>The case manager and the learner's own team.</summary>
    public static bool MayBegin(Caller caller, int learner) => caller.IsStaff && (caller.Manages(learner) || caller.Stands(learner, Relation.Team));

    /// <summary>Owners of the goal write their paragraph; any one of them, or the case manager, joins what was written.</summary>
    public static bool MayWrite(Caller caller, int learner, IEnumerable<int> owners) =>
        MayBegin(caller, learner) && (caller.Manages(learner) || owners.Contains(caller.PersonId));

    /// <summary>Owners of any goal in it sign what they have read; the case manager signs too, and alone finishes it.</summary>
    public static bool MaySign(Caller caller, int learner, IEnumerable<ReportOwner> owners) =>
        MayBegin(caller, learner) && (caller.Manages(learner) || owners.Any(o => o.PersonId == caller.PersonId));

    /// <summary>Who has not signed what stands, but for whoever finishes it now.</summary>
    public static IEnumerable<ReportOwner> Unsigned(IEnumerable<ReportOwner> owners, int manager) => owners.Where(o => !o.HasSigned && o.PersonId != manager);

    /// <summary>All problems of the word on what came of a review.</summary>
    public static IEnumerable<Problem> CheckReview(string? word)
    {
        if (string.IsNullOrWhiteSpace(word) || word.Trim().Length > LongestWords)
            yield return new("Word", "Say what the team looked at, and what it changes or keeps.");
    }

    /// <summary>All problems of the reason for another edition.</summary>
    public static IEnumerable<Problem> CheckCorrection(string? reason)
    {
        if (string.IsNullOrWhiteSpace(reason) || reason.Trim().Length > LongestReason)
            yield return new("Reason", $"Say in under {LongestReason} letters what was wrong.");
    }

    /// <summary>All problems of one owner's paragraph.</summary>
    public static IEnumerable<Problem> CheckPart(string? words)
    {
        if (string.IsNullOrWhiteSpace(words))
            yield return new("Words", "Write what you saw, in a sentence or two.");
        else if (words.Trim().Length > LongestWords)
            yield return new("Words", $"Keep it under {LongestWords} letters.");
    }

    /// <summary>All problems of what is said of a goal.</summary>
    public static IEnumerable<Problem> CheckJoined(GoalSaid goal)
    {
        if (goal.Status is null)
            yield return new("Status", "Choose what the team says of this goal.");
        if (goal.Status == ReportStatus.NotWorkedOn && string.IsNullOrWhiteSpace(goal.Reason))
            yield return new("Reason", "Say why the goal was not worked on.");
        if (goal.Reason?.Trim().Length > LongestReason)
            yield return new("Reason", $"Keep it under {LongestReason} letters.");
        if (goal.Status != ReportStatus.NotWorkedOn && string.IsNullOrWhiteSpace(goal.Words))
            yield return new("Words", "Write the paragraph that goes into the report.");
        else if (goal.Words?.Trim().Length > LongestWords)
            yield return new("Words", $"Keep it under {LongestWords} letters.");
    }

    public static IEnumerable<Problem> CheckCredential(string? credential)
    {
        if (string.IsNullOrWhiteSpace(credential) || credential.Trim().Length > LongestCredential)
            yield return new("Credential", "Give the credential under which you sign, such as a licence and its number.");
    }

    /// <summary>What stands in the way of signing: a report is signed as a whole.</summary>
    public static IEnumerable<Problem> CheckReady(ReportContent content)
    {
        if (content.Facts is null)
            yield return new("", "Bring the figures in first.");
        var open = content.Goals.Count(g => g.Status is null);
        if (open > 0)
            yield return new("", open == 1 ? "One goal has no joined paragraph yet." : $"{open} goals have no joined paragraph yet.");
    }

    /// <summary>What stands in the way of the case manager's signature, which closes the report.</summary>
    /// <param name="without">Why it is signed although somebody has not; null where nothing was said.</param>
    public static IEnumerable<Problem> CheckFinish(ReportContent content, IEnumerable<ReportOwner> owners, int manager, string? without)
    {
        foreach (var problem in CheckReady(content))
            yield return problem;
        if (Unsigned(owners, manager).Any() && string.IsNullOrWhiteSpace(without))
            yield return new("Without", "Not every owner has signed what stands now. Wait for them, or say why it goes without.");
        if (without?.Trim().Length > LongestReason)
            yield return new("Without", $"Keep it under {LongestReason} letters.");
    }
}
