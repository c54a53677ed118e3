namespace TeamCircle.Core.Practice;

/// <summary>The conditions strip as it was at this practice. What nobody said is null.</summary>
public sealed record Conditions
{
    public StatesOfLearner State { get; init; } = new();

    /// <summary>Today's news from home.</summary>
    public string? News { get; init; }

    /// <summary>Where things were presented: side, height, distance, light, background.</summary>
    public string? Side { get; init; }
    public string? Height { get; init; }
    public string? Distance { get; init; }
    public string? Light { get; init; }
    public string? Background { get; init; }

    /// <summary>Position and equipment; times as written on the wall clock, such as 09:05.</summary>
    public string? Position { get; init; }
    public string? Equipment { get; init; }
    public string? TimeIn { get; init; }
    public string? TimeOut { get; init; }
    public string? Tilt { get; init; }
    public string? Tolerance { get; init; }

    /// <summary>The skin when the equipment was taken off.</summary>
    public string? Skin { get; init; }

    public string? Hand { get; init; }

    /// <summary>Where support was given.</summary>
    public string? SupportAt { get; init; }

    public string? Switch { get; init; }
    public string? SwitchSite { get; init; }
    public string? SwitchSide { get; init; }
    public string? Mount { get; init; }
    public int? Hits { get; init; }
    public int? Misses { get; init; }

    /// <summary>Who was there.</summary>
    public string? Present { get; init; }
    public string? Glasses { get; init; }
    public string? HearingAids { get; init; }
    public string? Splints { get; init; }
}

public sealed record StatesOfLearner(StateOfLearner? Start = null, StateOfLearner? Middle = null, StateOfLearner? End = null);

public enum StateOfLearner
{
    Asleep,
    Drowsy,
    QuietAlert,
    ActiveAlert,
    Upset,
}
