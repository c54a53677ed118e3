using NodaTime;

namespace TeamCircle.Core.Import;

/// <summary>What a OneRoster set says of what an agency's own files hold. Nothing here is stored: a clerk completes it first (decision 38).</summary>
public sealed record RosterReading
{
    public IReadOnlyList<RosterPerson> People { get; init; } = [];
    public IReadOnlyList<RosterLearner> Learners { get; init; } = [];
    public IReadOnlyList<RosterSpan> Terms { get; init; } = [];
    public IReadOnlyList<RosterSpan> Periods { get; init; } = [];

    /// <summary>All of them, in the order of the files.</summary>
    public IReadOnlyList<FileProblem> Problems { get; init; } = [];

    /// <summary>What was left out, and what to look at.</summary>
    public IReadOnlyList<FileNote> Notes { get; init; } = [];

    public bool IsEmpty => People.Count + Learners.Count + Terms.Count + Periods.Count == 0;
}

/// <param name="Roles">Words of people.csv; none where the set's role has no like here, for the clerk to write.</param>
public sealed record RosterPerson(string Email, string Name, IReadOnlyList<string> Roles);

/// <param name="Code">The set's identifier, or where there is none its sourcedId.</param>
/// <param name="Family">E-mails of those whom the set ties to the learner.</param>
public sealed record RosterLearner(string Code, string Name, IReadOnlyList<string> Family);

/// <param name="Last">The last day: the day before the set's endDate, which no longer belongs to it.</param>
public sealed record RosterSpan(string Name, LocalDate First, LocalDate Last);
