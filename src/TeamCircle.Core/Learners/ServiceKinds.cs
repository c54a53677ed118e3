namespace TeamCircle.Core.Learners;

/// <summary>The discipline of a service or of a person who gives it.</summary>
public enum Discipline
{
    Vision,
    OccupationalTherapy,
    PhysicalTherapy,
    AssistiveTechnology,
    SpecialEducation,
    ParentCounselingAndTraining,
    OrientationAndMobility,
    SpeechLanguage,
}

public enum Place
{
    Home,
    School,
    Community,
    Remote,
}

/// <summary>Whose time a service is: the learner's (direct), adults' (consultation, parent counseling and training) or nobody's (indirect).</summary>
public enum ServiceKind
{
    Direct,
    Consultation,
    ParentCounselingAndTraining,
    Indirect,
}

/// <summary>In which terms a line runs.</summary>
public enum LineTerms
{
    Regular,
    Extended,
    Both,
}

/// <summary>How minutes given together with another provider credit this line.</summary>
public enum CoTreatment
{
    None,
    Full,
    Shared,
    Lead,
}

public enum SessionFormat
{
    Individual,
    Group,
}

/// <summary>Wordings of a plan that promise nothing that can be judged.</summary>
public enum Wording
{
    UpTo,
    AsNeeded,
}
