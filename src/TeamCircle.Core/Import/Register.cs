using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>What rows may refer to: what is stored, and the good rows that were read so far. Codes and e-mails are compared ignoring case.</summary>
internal sealed class Register
{
    private readonly Dictionary<string, string> _people;
    private readonly Dictionary<string, LearnerFact> _learners;
    private readonly Dictionary<string, ServiceFact> _services = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, GoalFact> _goals;
    private readonly Dictionary<(FileKind, string), string> _refused = [];
    private readonly Dictionary<string, PromiseWindows> _windows = new(StringComparer.OrdinalIgnoreCase);
    private WindowCatalog? _catalog;

    public Register(ImportFacts facts)
    {
        Facts = facts;
        _people = Named(facts.Emails, e => e);
        _learners = Named(facts.Learners, l => l.Code);
        _goals = Named(facts.Goals, g => g.Code);
        foreach (var service in facts.Services)
            Set(service);
        Terms = Named(facts.Terms, t => t.Name);
        Periods = Named(facts.Periods, p => p.Name);
        SpecialDays = facts.SpecialDays.GroupBy(d => d.Date).ToDictionary(g => g.Key, g => g.First().Kind);
        (Weekdays, WeekStart) = (facts.Agency?.Weekdays ?? 0b0011111, facts.Agency?.WeekStart ?? IsoDayOfWeek.Monday);
    }

    public ImportFacts Facts { get; }
    public Dictionary<string, TermFact> Terms { get; }
    public Dictionary<string, PeriodFact> Periods { get; }
    public Dictionary<LocalDate, ClosureKind> SpecialDays { get; }

    /// <summary>Ordinary weekdays, bit 0 Monday to bit 6 Sunday.</summary>
    public int Weekdays { get; set; }
    public IsoDayOfWeek WeekStart { get; set; }

    public void AddPerson(string email) => _people.TryAdd(email, email);

    public void Set(LearnerFact learner) => _learners[learner.Code] = learner;

    public void Set(GoalFact goal) => _goals[goal.Code] = goal;

    public void Set(ServiceFact service)
    {
        foreach (var version in service.Versions)
            _services[version.Code] = service;
    }

    /// <summary>Remembers that a row with this code was refused, so that rows which name it can say so.</summary>
    public void Refused(FileKind kind, RowCells row, string code) => _refused.TryAdd((kind, code.ToUpperInvariant()), $"{row.File}, line {row.Line}");

    public LearnerFact? Learner(string code) => _learners.GetValueOrDefault(code);

    public ServiceFact? Service(string code) => _services.GetValueOrDefault(code);

    public GoalFact? Goal(string code) => _goals.GetValueOrDefault(code);

    /// <summary>The learner that a cell names; refuses the row where there is none.</summary>
    public LearnerFact? Learner(RowCells row, string column) => Find(row, column, FileKind.Learners, "learner", _learners);

    /// <summary>The learner of a service or goal, which belongs to a plan.</summary>
    public LearnerFact? LearnerWithPlan(RowCells row)
    {
        var learner = Learner(row, "learner");
        if (learner?.Plans.Count == 0)
            row.Refuse("learner", "This learner has no plan yet: bring learners.csv with the plan's dates.");
        return learner;
    }

    /// <inheritdoc cref="Learner(RowCells, string)"/>
    public ServiceFact? Service(RowCells row, string column) => Find(row, column, FileKind.Services, "service", _services);

    /// <inheritdoc cref="Learner(RowCells, string)"/>
    public GoalFact? Goal(RowCells row, string column) => Find(row, column, FileKind.Goals, "goal", _goals);

    /// <summary>The person that a cell names, by the e-mail as it is stored; refuses the row where there is none.</summary>
    public string? Person(RowCells row, string column) => Find(row, column, FileKind.People, "person", _people);

    /// <summary>The person, or null for an empty cell.</summary>
    public string? PersonOrNone(RowCells row, string column) => row.Cell(column).Length == 0 ? null : Person(row, column);

    /// <summary>All people that a cell names, each once.</summary>
    public IReadOnlyList<string> People(RowCells row, string column)
    {
        var found = new List<string>();
        foreach (var email in row.Parts(column))
        {
            if (Find(row, column, FileKind.People, "person", _people, email) is { } person && !found.Contains(person))
                found.Add(person);
        }
        return found;
    }

    /// <summary>The windows of a service line, by the calendar and the periods as they are after this import.</summary>
    public PromiseWindows Windows(ServiceFact service)
    {
        if (_windows.TryGetValue(service.Code, out var known))
            return known;
        // Only the kind of window and the dates matter here: a line whose rows were refused may have versions out of order.
        var dates = service.Dates with { Last = Math.Max(Day.Of(service.From), Day.Of(service.To)) };
        var promise = new Promise(service.Every, dates, new PromiseVersion(dates.First, 0)) { Terms = service.Terms };
        var plan = Learner(service.Learner)?.PlanFor(dates) ?? dates;
        return _windows[service.Code] = Catalog.Of(promise, plan);
    }

    /// <summary>The windows of a goal's probes.</summary>
    public PromiseWindows Windows(GoalFact goal)
    {
        var dates = DateRange.Of(goal.From, goal.To);
        var promise = new Promise(goal.Every, dates, new PromiseVersion(dates.First, goal.Probes));
        return Catalog.Of(promise, Learner(goal.Learner)?.PlanFor(dates) ?? dates);
    }

    /// <summary>The calendar as it is after this import; ask only when its files have been read.</summary>
    public SchoolCalendar Calendar() => new(
        Enumerable.Range(0, 7).Where(bit => (Weekdays & (1 << bit)) != 0).Select(bit => (IsoDayOfWeek)(bit + 1)),
        WeekStart, Terms.Values.Select(t => t.Term), SpecialDays.Select(d => new SpecialDay(d.Key, d.Value)));

    private WindowCatalog Catalog => _catalog ??= new(Calendar(), Periods.Values.Select(p => DateRange.Of(p.Start, p.End)));

    private T? Find<T>(RowCells row, string column, FileKind kind, string what, Dictionary<string, T> known, string? code = null) where T : class
    {
        if ((code ?? row.Text(column)) is not { } sought)
            return null;
        if (known.TryGetValue(sought, out var found))
            return found;
        row.Refuse(column, _refused.TryGetValue((kind, sought.ToUpperInvariant()), out var place)
            ? $"The row of this {what} was refused: {place}."
            : $"No {what} is known by '{Short(sought)}'.");
        return null;
    }

    private static Dictionary<string, T> Named<T>(IEnumerable<T> facts, Func<T, string> name)
    {
        var named = new Dictionary<string, T>(StringComparer.OrdinalIgnoreCase);
        foreach (var fact in facts)
            named.TryAdd(name(fact), fact); // names that differ in case only were made on a page: the first is meant
        return named;
    }

    private static string Short(string text) => text.Length <= 60 ? text : text[..60] + "...";
}
