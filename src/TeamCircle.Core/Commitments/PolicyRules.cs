using NodaTime;

namespace TeamCircle.Core.Commitments;

/// <summary>A change of policy as somebody asked for it.</summary>
/// <param name="FromDay">The first day of the reporting period with which it begins.</param>
/// <param name="Words">The policy's own words, and <paramref name="WrittenIn"/> where they are written.</param>
/// <param name="SecondPerson">Who agreed.</param>
public sealed record PolicyEntry(
    LocalDate? FromDay, Policy Policy, string? Words, string? WrittenIn, string? Reason, int? SecondPerson);

/// <summary>What stands when a policy is changed.</summary>
/// <param name="PeriodStarts">First days of the reporting periods.</param>
/// <param name="MayAgree">Directors, administrators and case managers of today, other than the one who asks.</param>
public sealed record PolicySituation(LocalDate Today, IReadOnlySet<LocalDate> PeriodStarts, IReadOnlySet<int> MayAgree);

/// <summary>How the agency's policy may change: from a reporting period that has not begun, with a reason and a second person.</summary>
public static class PolicyRules
{
    /// <summary>All problems at once; none where it can be stored.</summary>
    public static IEnumerable<Problem> Check(PolicyEntry entry, PolicySituation situation)
    {
        if (entry.FromDay is not { } from || !situation.PeriodStarts.Contains(from))
            yield return new("FromDay", "Choose the reporting period with which it begins.");
        else if (from <= situation.Today)
            yield return new("FromDay", "That reporting period has begun. A policy begins with one that starts after today.");
        if (entry.Policy.TolerancePercent is < 0 or > 100)
            yield return new("TolerancePercent", "Give a whole percent from 0 to 100.");
        if (entry.Policy.SessionShare is < 1 or > 100)
            yield return new("SessionShare", "Give a whole percent from 1 to 100.");
        if (entry.Policy != Policy.Default && string.IsNullOrWhiteSpace(entry.Words))
            yield return new("Words", "Quote the agency's written policy: it stands on every page where it changes a figure.");
        if (entry.Policy != Policy.Default && string.IsNullOrWhiteSpace(entry.WrittenIn))
            yield return new("WrittenIn", "Say where the policy is written.");
        if (string.IsNullOrWhiteSpace(entry.Reason))
            yield return new("Reason", "Say why the policy changes.");
        if (entry.SecondPerson is not { } second || !situation.MayAgree.Contains(second))
            yield return new("SecondPerson", "Name the director, administrator or case manager who agreed; it can't be yourself.");
    }
}
