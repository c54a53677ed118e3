namespace TeamCircle.Core.Monitoring;

/// <summary>What is looked at in each file of a sample, in the order of the list.</summary>
public enum FileQuestion
{
    PlanInForce,
    SomebodyAssigned,
    MinutesByService,
    ProbesByGoal,
    DecisionsComplete,
    FamilyTold,
    Signatures,
    LateEntries,
}

public enum FileAnswer
{
    Yes,
    No,
    NotApplicable,
}
