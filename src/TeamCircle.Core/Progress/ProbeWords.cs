namespace TeamCircle.Core.Progress;

public enum Measure
{
    PercentIndependent,
    ResponsesOf,
    AveragePromptsNeeded,
    TimeToRespond,
    Duration,
    Count,
    Rate,
    OwnScale,
}

public enum Better
{
    Up,
    Down,
}

/// <summary>First chance of the day under agreed conditions, or data taken while teaching.</summary>
public enum ProbeKind
{
    Probe,
    Teaching,
}

public enum Stage
{
    BeforeTeaching,
    DuringTeaching,
    Upkeep,
    Elsewhere,
}
