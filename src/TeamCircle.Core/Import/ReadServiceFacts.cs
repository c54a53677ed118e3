using TeamCircle.Core.Commitments;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>Reads assignments, balances, decisions and probes.</summary>
internal sealed class ReadServiceFacts(Register register, Findings findings)
{
    private const int MostMinutes = 1_000_000;

    public List<AssignmentLine> Assignments(RawTable table)
    {
        var good = new List<AssignmentLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (service, person) = (register.Service(row, "service"), register.Person(row, "person"));
            var (from, to) = (row.Day("from"), row.Day("to"));
            row.InOrder(from, to, "to");
            if (row.IsGood && reader.IsFirst(row, "from", "This person and day stand for this service", service!.Code, person!, $"{from}"))
                good.Add(new(row.File, row.Line, service.Code, person!, from!.Value, to!.Value));
        }
        return good;
    }

    public List<BalanceLine> Balances(RawTable table)
    {
        var good = new List<BalanceLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (service, asOf) = (register.Service(row, "service"), row.Day("as of"));
            var given = row.WholeOrNone("given before", 0, MostMinutes);
            var (forward, award) = (row.WholeOrNone("brought forward", 0, MostMinutes), row.WholeOrNone("award", 0, MostMinutes));
            var (source, until) = (row.TextOrNone("source"), row.DayOrNone("until"));
            row.InOrder(asOf, until, "until");
            if (award is null or 0 && (source is not null || until is not null))
                row.Refuse("award", "Source and until belong to an award: say how many minutes it is, or leave them empty.");
            if (row.IsGood && reader.IsFirst(row, "as of", "This service and day stand", service!.Code, $"{asOf}"))
                good.Add(new(row.File, row.Line, service.Code, asOf!.Value, given, forward, award, source, until));
        }
        return good;
    }

    public List<DecisionLine> Decisions(RawTable table)
    {
        var good = new List<DecisionLine>();
        foreach (var row in new TableReader(table, findings).Rows())
        {
            var date = row.Day("date");
            var (service, goal) = About(row);
            var (amount, sessions) = (row.Whole("amount", 0, MostMinutes), row.WholeOrNone("sessions", 0, 10_000));
            var kind = row.Word<DecisionKind>("decision");
            var (decidedOn, told, note) = (row.Day("decided on"), row.DayOrNone("family told on"), row.TextOrNone("note"));
            var by = register.People(row, "by");
            if (by.Count == 0)
                row.Refuse("by", "A decision names at least one person who took part.");
            if (amount == 0 && sessions is null or 0)
                row.Refuse("amount", "A decision is about one minute, session or probe at least.");
            var learner = service?.Learner ?? goal?.Learner;
            if (!row.IsGood)
                continue;
            var windows = service is not null ? register.Windows(service) : register.Windows(goal!);
            if (windows.Find(Day.Of(date!.Value)) < 0)
                row.Note("date", "Nothing was owed around this day: the decision counts for nothing.");
            good.Add(new(row.File, row.Line, service?.Code, goal?.Code, learner!, date.Value, amount!.Value, sessions, kind!.Value, decidedOn!.Value, by, told, note));
        }
        return good;
    }

    public List<ProbeLine> Probes(RawTable table)
    {
        var good = new List<ProbeLine>();
        foreach (var row in new TableReader(table, findings).Rows())
        {
            var (date, goal, provider) = (row.Day("date"), register.Goal(row, "goal"), register.Person(row, "provider"));
            var opportunities = row.WholeOrNone("opportunities", 1, 10_000);
            var value = Value(row, goal?.Measure, opportunities);
            var (kind, stage) = (row.WordOrNone<ProbeKind>("kind") ?? ProbeKind.Probe, row.WordOrNone<Stage>("stage"));
            var pays = row.DayOrNone("makes up for");
            if (date > register.Facts.Today)
                row.Refuse("date", "This day is still to come.");
            if (pays is { } day && goal is not null && register.Windows(goal).Find(Day.Of(day)) < 0)
                row.Refuse("makes up for", "No probe of this goal was due around this day.");
            if (row.IsGood)
                good.Add(new(row.File, row.Line, goal!.Code, goal.Learner, provider!, date!.Value, value!.Value, opportunities, kind, stage, pays));
        }
        return good;
    }

    private (ServiceFact? Service, GoalFact? Goal) About(RowCells row)
    {
        var (hasService, hasGoal) = (row.Cell("service").Length > 0, row.Cell("goal").Length > 0);
        if (hasService && hasGoal)
            row.Refuse("goal", "A decision is about a service or about a goal, not about both.");
        else if (!hasService && !hasGoal)
            row.Refuse("service", "Name the service or the goal that this is about.");
        return (hasService ? register.Service(row, "service") : null, hasGoal && !hasService ? register.Goal(row, "goal") : null);
    }

    private static decimal? Value(RowCells row, Measure? measure, int? opportunities)
    {
        var value = row.Number("value");
        if (value is { } number && measure is { } known && ProbeRules.ValueProblem(known, number, opportunities) is { } problem)
            row.Refuse("value", problem);
        return value;
    }
}
