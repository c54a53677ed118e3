using System.Text.Json;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Closing;

/// <summary>A line of one edition of a statement, to be compared with the same line of another.</summary>
/// <param name="Key">Names the line in every edition: its service, or its goal and owner, and its place among lines of the same.</param>
/// <param name="Facts">What stood beside the sealed figures.</param>
public sealed record ComparedLine(string Key, SealedLine Sealed, StatementLine Facts)
{
    public SealedAnswer Answer { get; } = SealedAnswer.Read(Sealed.Answer);

    /// <summary>The lines of one edition, in its order.</summary>
    /// <param name="facts">Those of the lines, one for one.</param>
    public static IReadOnlyList<ComparedLine> Of(IReadOnlyList<SealedLine> lines, IReadOnlyList<StatementLine> facts) => [.. lines.Zip(facts)
        .GroupBy(l => FormattableString.Invariant($"{l.First.Service}/{l.First.Goal}/{l.First.Owner}"))
        .SelectMany(same => same.Select((l, i) => new ComparedLine(FormattableString.Invariant($"{same.Key}/{i}"), l.First, l.Second)))
        .OrderBy(l => l.Sealed.Position)];

    /// <summary>Every visit or probe on record with the minutes that count of it, or 1 for a probe; 0 for what was not given.</summary>
    /// <exception cref="CaseException">The sealed inputs are no case of kind <c>commitment</c>.</exception>
    internal List<(StatementVisit Visit, int Amount)> Visits() =>
        [.. Facts.Given.Zip(CommitmentCase.Read(CaseField.Parse(Sealed.Inputs)).Given, (visit, entry) => (visit, entry.Amount)), .. Facts.NotGiven.Select(n => (n, 0))];
}

/// <summary>A figure that differs between two editions.</summary>
/// <param name="Name">Its name in an answer to case kind <c>commitment</c>.</param>
public sealed record FigureChange(string Name, int Was, int Is);

/// <summary>A visit or probe that differs.</summary>
/// <param name="Visit">As it stands in the later edition; as it stood in the earlier one where it is not on record any more.</param>
/// <param name="Was">What counted of it; null where it was not on record.</param>
/// <param name="Is">What counts of it; null where it is not on record any more.</param>
public sealed record VisitChange(StatementVisit Visit, int? Was, int? Is);

/// <summary>A decision that came or went.</summary>
public sealed record DecisionChange(StatementDecision Decision, bool IsNew);

/// <summary>What a line rests on beside visits and decisions.</summary>
public enum LineBasis
{
    /// <summary>What the plan promises, and when.</summary>
    Promise,

    /// <summary>The school calendar or the reporting periods.</summary>
    Calendar,
    Policy,

    /// <summary>What earlier periods brought forward.</summary>
    BroughtForward,
}

/// <summary>What differs in one line.</summary>
/// <param name="Was">Null for a line that came.</param>
/// <param name="Is">Null for a line that went.</param>
/// <param name="Status">The codes of the two statuses; null where they are the same, or the line came or went.</param>
public sealed record LineDifference(
    StatementLine? Was, StatementLine? Is, IReadOnlyList<FigureChange> Figures, (string Was, string Is)? Status,
    IReadOnlyList<VisitChange> Visits, IReadOnlyList<DecisionChange> Decisions, IReadOnlyList<LineBasis> Bases)
{
    public bool IsNothing => Was is not null && Is is not null && Status is null && Figures.Count + Visits.Count + Decisions.Count + Bases.Count == 0;
}

/// <summary>What differs between two editions of one statement, line by line, with what it came from: both from what was sealed alone.</summary>
public static class StatementDifference
{
    private static readonly string[] Figures =
        ["owed", "notOwed", "due", "given", "lack", "undecided", "madeUpSince", "sessionsDue", "sessionsGiven", "sessionsLack", "sessionsUndecided", "openOwed", "openGiven"];

    /// <summary>The names in a case of kind <c>commitment</c> of what a line rests on.</summary>
    private static readonly Dictionary<LineBasis, string[]> Inputs = new()
    {
        [LineBasis.Promise] = ["line", "plan"],
        [LineBasis.Calendar] = ["calendar", "periods", "period"],
        [LineBasis.Policy] = ["policy", "laterPolicies"],
        [LineBasis.BroughtForward] = ["broughtForward"],
    };

    /// <summary>The lines that differ, in the later edition's order; lines that went come last.</summary>
    /// <exception cref="CaseException">The sealed inputs of a line are no case of kind <c>commitment</c>.</exception>
    public static IReadOnlyList<LineDifference> Of(IReadOnlyList<ComparedLine> was, IReadOnlyList<ComparedLine> now)
    {
        var before = was.ToDictionary(l => l.Key);
        var keys = now.Select(l => l.Key).ToHashSet();
        var stayed = now.Select(l => before.TryGetValue(l.Key, out var same) ? Both(same, l) : new LineDifference(null, l.Facts, [], null, [], [], []));
        var went = was.Where(l => !keys.Contains(l.Key)).Select(l => new LineDifference(l.Facts, null, [], null, [], [], []));
        return [.. stayed.Concat(went).Where(d => !d.IsNothing)];
    }

    private static LineDifference Both(ComparedLine was, ComparedLine now) => new(
        was.Facts, now.Facts,
        [.. Figures.Where(f => was.Answer[f] != now.Answer[f]).Select(f => new FigureChange(f, was.Answer[f], now.Answer[f]))],
        was.Answer.Status == now.Answer.Status ? null : (was.Answer.Status, now.Answer.Status),
        [.. Visits(was.Visits(), now.Visits())], [.. Decisions(was.Facts.Decisions, now.Facts.Decisions)], Bases(was.Sealed.Inputs, now.Sealed.Inputs));

    /// <summary>A visit is the same as one of that day, person and start; of the others, those of one day and person are one that was corrected.</summary>
    private static IEnumerable<VisitChange> Visits(List<(StatementVisit Visit, int Amount)> gone, List<(StatementVisit Visit, int Amount)> came)
    {
        List<(StatementVisit Visit, int Amount)> others = [];
        foreach (var visit in came)
        {
            var same = gone.FindIndex(g => IsOf(g.Visit, visit.Visit) && g.Visit.Start == visit.Visit.Start);
            if (same < 0)
                others.Add(visit);
            else if (gone[same] != visit)
                yield return new(visit.Visit, gone[same].Amount, visit.Amount);
            if (same >= 0)
                gone.RemoveAt(same);
        }
        foreach (var visit in others)
        {
            var corrected = gone.FindIndex(g => IsOf(g.Visit, visit.Visit));
            yield return new(visit.Visit, corrected < 0 ? null : gone[corrected].Amount, visit.Amount);
            if (corrected >= 0)
                gone.RemoveAt(corrected);
        }
        foreach (var visit in gone)
            yield return new(visit.Visit, visit.Amount, null);
    }

    private static bool IsOf(StatementVisit one, StatementVisit other) => (one.Day, one.Who) == (other.Day, other.Who);

    private static IEnumerable<DecisionChange> Decisions(IReadOnlyList<StatementDecision> was, IReadOnlyList<StatementDecision> now)
    {
        var gone = was.ToList();
        foreach (var decision in now)
        {
            var same = gone.FindIndex(d => d with { People = decision.People } == decision && d.People.SequenceEqual(decision.People));
            if (same < 0)
                yield return new(decision, true);
            else
                gone.RemoveAt(same);
        }
        foreach (var decision in gone)
            yield return new(decision, false);
    }

    private static LineBasis[] Bases(string was, string now)
    {
        using var before = JsonDocument.Parse(was);
        using var after = JsonDocument.Parse(now);
        return [.. Inputs.Where(i => i.Value.Any(name => Text(before, name) != Text(after, name))).Select(i => i.Key)];
    }

    /// <summary>Canonical, as it was sealed: the same content is the same text. Null where there is none.</summary>
    private static string? Text(JsonDocument inputs, string name) => inputs.RootElement.TryGetProperty(name, out var value) ? value.GetRawText() : null;
}
