namespace TeamCircle.Core.Import;

/// <summary>What the files say: the good rows, what is wrong with the others, and what a person should look at.</summary>
public sealed record FolderReading
{
    public AgencyLine? Agency { get; init; }
    public IReadOnlyList<TermLine> Terms { get; init; } = [];
    public IReadOnlyList<PeriodLine> Periods { get; init; } = [];
    public IReadOnlyList<ClosureLine> Closures { get; init; } = [];
    public IReadOnlyList<PersonLine> People { get; init; } = [];
    public IReadOnlyList<LearnerLine> Learners { get; init; } = [];
    public IReadOnlyList<ServiceLine> Services { get; init; } = [];
    public IReadOnlyList<GoalLine> Goals { get; init; } = [];
    public IReadOnlyList<AssignmentLine> Assignments { get; init; } = [];
    public IReadOnlyList<BalanceLine> Balances { get; init; } = [];
    public IReadOnlyList<VisitLine> Visits { get; init; } = [];
    public IReadOnlyList<DecisionLine> Decisions { get; init; } = [];
    public IReadOnlyList<ProbeLine> Probes { get; init; } = [];

    /// <summary>In the order of the files, by line; one a column of a row.</summary>
    public IReadOnlyList<FileProblem> Problems { get; init; } = [];
    public IReadOnlyList<FileNote> Notes { get; init; } = [];
}

/// <summary>Reads and checks the files that an agency brings (docs/import.md). Pure: nothing is stored here.</summary>
public static class ReadFolder
{
    public static FolderReading Run(Brought brought, ImportFacts facts)
    {
        var findings = new Findings();
        var register = new Register(facts);
        var agency = brought.Agency is { } text ? new ReadAgency(text, facts.Agency, findings).Run() : null;
        if (agency is not null)
            (register.Weekdays, register.WeekStart) = (agency.Weekdays, agency.WeekStart);
        if (facts.Agency is null && brought.Agency is null)
            findings.Refuse(new("agency.json", 1, "", "This agency is new: bring agency.json with its name and time zone."));

        List<T> Each<T>(FileKind kind, Func<RawTable, List<T>> read) => [.. brought.Tables.Where(t => t.Kind == kind).SelectMany(read)];
        var calendar = new ReadCalendar(register, findings);
        var terms = Each(FileKind.Terms, calendar.Terms);
        var periods = Each(FileKind.Periods, calendar.Periods);
        var table = Each(FileKind.Closures, calendar.Closures);
        List<ClosureLine> closures = [.. brought.Calendars.SelectMany(c => calendar.Events(c, table)), .. table];
        if (periods.Count > 0)
            calendar.CheckGaps(periods[0].File);

        var people = new ReadPeople(register, findings);
        var facts2 = new ReadServiceFacts(register, findings);
        var reading = new FolderReading
        {
            Agency = agency,
            Terms = terms,
            Periods = periods,
            Closures = closures,
            People = Each(FileKind.People, people.People),
            Learners = Each(FileKind.Learners, people.Learners),
            Services = Each(FileKind.Services, new ReadServices(register, findings).Run),
            Goals = Each(FileKind.Goals, new ReadGoals(register, findings).Run),
            Assignments = Each(FileKind.Assignments, facts2.Assignments),
            Balances = Each(FileKind.Balances, facts2.Balances),
            Visits = new ReadVisits(register, findings).Run([.. brought.Tables.Where(t => t.Kind == FileKind.Visits)]),
            Decisions = Each(FileKind.Decisions, facts2.Decisions),
            Probes = Each(FileKind.Probes, facts2.Probes),
        };
        return reading with { Problems = InOrder(findings.Problems), Notes = findings.Notes };
    }

    internal static List<FileProblem> InOrder(IReadOnlyList<FileProblem> problems)
    {
        var files = problems.Select(p => p.File).Distinct().ToList();
        return [.. problems.OrderBy(p => files.IndexOf(p.File)).ThenBy(p => p.Line)];
    }
}
