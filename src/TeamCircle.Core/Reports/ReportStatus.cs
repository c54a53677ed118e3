namespace TeamCircle.Core.Reports;

/// <summary>What the team says of one goal at the end of a reporting period. People say it; nothing is concluded from figures.</summary>
public enum ReportStatus
{
    Mastered,

    /// <summary>Enough progress to meet the goal by its target date.</summary>
    EnoughProgress,

    /// <summary>Some progress, not enough to meet the goal by its target date: the team looks at the teaching.</summary>
    NotEnough,

    /// <summary>Kept at the level that was reached.</summary>
    Maintained,

    /// <summary>Not worked on; the reason belongs to it.</summary>
    NotWorkedOn,

    /// <summary>The team has to meet about it.</summary>
    NeedsMeeting,
}
