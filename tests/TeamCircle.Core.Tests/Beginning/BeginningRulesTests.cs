using TeamCircle.Core.Beginning;

namespace TeamCircle.Core.Tests.Beginning;

/// <summary>How far an agency has come, by what it holds.</summary>
public sealed class BeginningRulesTests
{
    private static readonly BeginningFacts Empty = new(0, 0, 1, 0, 1, 0, 0, null, 0, 0, null, 0, false);

    private static readonly BeginningFacts Running = new(3, 3, 6, 1, 6, 0, 2, new(2027, 5, 28), 4, 4, new(2027, 5, 28), 9, true);

    [Fact]
    public void Empty_agency_begins_with_its_files_and_a_running_one_has_nothing_left()
    {
        Assert.Equal(BeginningStep.Files, BeginningRules.Next(Empty));
        Assert.Equal(BeginningStep.Files, BeginningRules.Next(Empty with { Staff = 2, StaffJoined = 2 })); // a director beside the administrator
        Assert.All(BeginningRules.Steps, s => Assert.Equal(StepState.NotYet, BeginningRules.Of(s, Empty)));
        Assert.Null(BeginningRules.Next(Running));
        Assert.All(BeginningRules.Steps, s => Assert.Equal(StepState.Done, BeginningRules.Of(s, Running)));
    }

    [Fact]
    public void What_is_taken_back_is_open_again_and_whoever_comes_later_opens_nothing()
    {
        Assert.Equal(BeginningStep.Calendar, BeginningRules.Next(Running with { Terms = 0 }));
        Assert.Equal(BeginningStep.Periods, BeginningRules.Next(Running with { Periods = 0 }));
        Assert.Equal(BeginningStep.Audit, BeginningRules.Next(Running with { AuditSeen = false }));

        var later = Running with { Learners = 4, Staff = 7 };
        Assert.Null(BeginningRules.Next(later));
        Assert.Equal(StepState.Begun, BeginningRules.Of(BeginningStep.Plans, later));
        Assert.Equal(StepState.Begun, BeginningRules.Of(BeginningStep.People, later));
        Assert.Equal(StepState.Done, BeginningRules.Of(BeginningStep.People, later with { StaffInvited = 1 }));
    }

    [Fact]
    public void Audit_of_nothing_was_no_audit() =>
        Assert.Equal(StepState.NotYet, BeginningRules.Of(BeginningStep.Audit, Running with { Services = 0, LearnersWithServices = 0 }));
}
