using NodaTime;

namespace TeamCircle.Core.Beginning;

/// <summary>What a new agency does up to its first audit, in this order.</summary>
public enum BeginningStep
{
    Files,
    Calendar,
    Periods,
    Plans,
    People,
    Audit,
}

/// <summary>How far a step has come.</summary>
public enum StepState
{
    NotYet,
    Begun,
    Done,
}

/// <summary>What stands in an agency now, as far as beginning asks.</summary>
/// <param name="Learners">Without those that were entered twice.</param>
/// <param name="LearnersWithServices">Of these, with a service, past or to come.</param>
/// <param name="Staff">People on the list who work here, the reader among them.</param>
/// <param name="Families">People on the list who sign in as a family and do not work here.</param>
/// <param name="StaffJoined">Staff who have an account.</param>
/// <param name="StaffInvited">Staff without one, whose link still works.</param>
/// <param name="LastTermDay">The last day of the last term; null where there is none. So with the periods.</param>
/// <param name="AuditSeen">Whether somebody opened the audit since the first plan was recorded.</param>
public sealed record BeginningFacts(
    int Learners, int LearnersWithServices, int Staff, int Families, int StaffJoined, int StaffInvited,
    int Terms, LocalDate? LastTermDay, int Closures, int Periods, LocalDate? LastPeriodDay, int Services, bool AuditSeen)
{
    /// <summary>Staff who can't sign in yet and have no link.</summary>
    public int StaffWaiting => Math.Max(0, Staff - StaffJoined - StaffInvited);
}

/// <summary>Says from what an agency holds how far it has come. Nothing is ticked off by hand: a step that is taken back is open again.</summary>
public static class BeginningRules
{
    public static IReadOnlyList<BeginningStep> Steps { get; } = Enum.GetValues<BeginningStep>();

    public static StepState Of(BeginningStep step, BeginningFacts facts) => step switch
    {
        BeginningStep.Files => First(facts.Learners > 0, facts.Staff > 1),
        BeginningStep.Calendar => Whether(facts.Terms > 0),
        BeginningStep.Periods => Whether(facts.Periods > 0),
        BeginningStep.Plans => First(facts.Services > 0, facts.LearnersWithServices == facts.Learners),
        BeginningStep.People => First(facts.StaffJoined + facts.StaffInvited > 1, facts.StaffWaiting == 0),
        _ => Whether(facts.AuditSeen && facts.Periods > 0 && facts.Services > 0),
    };

    /// <summary>The first step that nobody has begun; null where each has been: somebody who joins later, or a new learner, does not set an agency back to its beginning.</summary>
    public static BeginningStep? Next(BeginningFacts facts) =>
        Steps.Select(s => (BeginningStep?)s).FirstOrDefault(s => Of(s!.Value, facts) == StepState.NotYet);

    private static StepState Whether(bool done) => done ? StepState.Done : StepState.NotYet;

    private static StepState First(bool begun, bool rest) => !begun ? StepState.NotYet : rest ? StepState.Done : StepState.Begun;
}
