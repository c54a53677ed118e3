using TeamCircle.Core.People;

namespace TeamCircle.Core.Sessions;

/// <summary>Who may record what about a learner's visits and probes: staff of the team their own, the case manager all.</summary>
public static class RecordRules
{
    /// <param name="provider">The person who gave the visit or took the probe.</param>
    public static bool MayRecord(Caller caller, int learner, int provider) =>
        caller.IsStaff && (caller.Manages(learner) || (caller.OnTeam(learner) && provider == caller.PersonId));
}
