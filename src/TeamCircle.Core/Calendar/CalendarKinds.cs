namespace TeamCircle.Core.Calendar;

/// <summary>Kind of a term: the ordinary school year, or extended school year services.</summary>
public enum TermKind
{
    Regular,
    Extended,
}

/// <summary>Kind of a day that differs from the ordinary ones (docs/rules.md, part 1).</summary>
public enum ClosureKind
{
    /// <summary>Closed, and in the published calendar: lowers what is owed where the policy says so.</summary>
    Published,

    /// <summary>Closed without notice (weather, emergency, strike): never lowers what is owed.</summary>
    Unscheduled,

    /// <summary>An extra day of school.</summary>
    Extra,
}

/// <summary>What an appointment is for. Only <see cref="Service"/> gives minutes of a service; the others credit nothing.</summary>
public enum VisitKind
{
    Service,
    Evaluation,
    PlanMeeting,
    EquipmentAndFitting,
}

/// <summary>Why a learner is away: cannot be visited, though the agency's calendar has school.</summary>
public enum AwayReason
{
    Hospital,
    Illness,
    IllnessInTheHousehold,
    Appointment,
    Travel,
    Other,
}
