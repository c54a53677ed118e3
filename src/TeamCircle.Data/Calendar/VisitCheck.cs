namespace TeamCircle.Data.Calendar;

/// <summary>A visit that a person should look at.</summary>
/// <param name="Provider">A name.</param>
/// <param name="State">Planned, or logged.</param>
public sealed record VisitCheck(Guid Visit, LocalDate On, LocalTime Start, int Minutes, int LearnerId, string Learner, string Provider, VisitState State)
{
    /// <summary>The closure on whose day it is planned; null where that is not what is the matter.</summary>
    public string? ClosedBy { get; init; }

    /// <summary>The way that takes longer than there is time before it; null where that is not what is the matter.</summary>
    public ShortWay? Way { get; init; }

    public LocalTime End => Start.PlusMinutes(Minutes);
}

/// <param name="From">The code of the place of the person's visit before.</param>
/// <param name="Needs">Minutes from place to place.</param>
/// <param name="Has">Minutes from the end of the visit before to the start of this one.</param>
public sealed record ShortWay(string From, string To, int Needs, int Has);

/// <summary>Visits that a person should look at, by what is the matter; of each at most <see cref="ReadVisitChecks.MostListed"/>.</summary>
/// <param name="Closed">Planned on a day that was closed after they were scheduled, soonest first.</param>
/// <param name="Travel">Brought by an import, or logged, though the way from the visit before takes longer than the time between; oldest first.</param>
public sealed record VisitChecks(IReadOnlyList<VisitCheck> Closed, IReadOnlyList<VisitCheck> Travel)
{
    public static VisitChecks None { get; } = new([], []);

    public bool IsEmpty => Closed.Count + Travel.Count == 0;
}
