using TeamCircle.Core.Learners;

namespace TeamCircle.Core.Sessions;

/// <summary>Which minutes a session gives to its service (docs/rules.md, part 5).</summary>
public static class SessionCredit
{
    /// <summary>
    /// Minutes from start to end less those that do not count; 0 unless given. A group counts in full for each learner in
    /// it. Co-treatment credits in full, by the minutes stated, or the lead only, as the service says.
    /// </summary>
    public static int Of(SessionEntry entry, CoTreatment coTreatment)
    {
        if (entry.Outcome != VisitOutcome.Given)
            return 0;
        var counted = Math.Max(0, entry.Minutes - entry.NotCounted);
        if (!entry.WithPartner)
            return counted;
        return coTreatment switch
        {
            CoTreatment.Shared => Math.Min(counted, entry.SharedMinutes ?? 0),
            CoTreatment.Lead => entry.Led ? counted : 0,
            _ => counted,
        };
    }
}
