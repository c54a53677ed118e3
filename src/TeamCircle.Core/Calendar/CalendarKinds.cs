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
