namespace TeamCircle.Core.Sessions;

/// <summary>What became of a visit.</summary>
public enum VisitOutcome
{
    Given,

    /// <summary>Came and waited; not taken up. Gives 0 minutes and is on record.</summary>
    Offered,
    NotOffered,
    Planned,
}

/// <summary>Whose side a reason lies on.</summary>
public enum ReasonSide
{
    ChildAndFamily,
    Agency,
    Nobody,
    Unknown,
}

/// <summary>Why a visit was not given, or was cut short.</summary>
public enum Reason
{
    LearnerUnwell,
    LearnerInHospital,
    MedicalAppointment,
    LearnerAsleepOrNotAlert,
    NobodyHome,
    NoAdultAtHome,
    IllnessInTheHousehold,
    FamilyAskedToMove,
    FamilyAway,
    ProviderUnwell,
    ProviderInTrainingOrMeeting,
    NobodyAssigned,
    EvaluationOrMeetingInstead,
    EquipmentOutOfOrder,
    NoInterpreter,
    WeatherOrEmergency,

    /// <summary>The agency's calendar has no school that day, for any learner.</summary>
    SchoolClosed,
    UnsafeToEnter,
    Other,
    NotRecorded,
}

public static class ReasonSides
{
    /// <summary>The side a reason lies on: <see cref="ReasonSide.Unknown"/> for "other" and "not recorded".</summary>
    public static ReasonSide Of(Reason reason) => reason switch
    {
        <= Reason.FamilyAway => ReasonSide.ChildAndFamily,
        <= Reason.NoInterpreter => ReasonSide.Agency,
        <= Reason.UnsafeToEnter => ReasonSide.Nobody,
        _ => ReasonSide.Unknown,
    };
}
