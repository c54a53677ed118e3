using NodaTime.Text;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>Turns what was sealed back into what the pages that show a sum take: nothing in it comes from today's rows.</summary>
/// <remarks>People stand in a statement by name; here each name has a number of its own.</remarks>
internal sealed class SealedLedger
{
    private readonly Dictionary<string, int> _people = [];

    public AuditNames Names => new(_people.ToDictionary(p => p.Value, p => new PersonName(p.Value, "", p.Key)), new Dictionary<int, LearnerName>());

    /// <exception cref="CaseException">The inputs are no case of kind <c>commitment</c>.</exception>
    public LedgerLine Line(SealedLine line, StatementLine facts, int learner)
    {
        var working = CommitmentCase.Read(CaseField.Parse(line.Inputs)).WorkOut();
        var of = new CommitmentLine
        {
            IsProbes = line.Goal is not null,
            Id = line.Service ?? line.Goal!.Value,
            LearnerId = learner,
            Code = facts.Code,
            OwnerId = facts.Goal?.Owner is { } owner ? Person(owner) : null,
            Named = [.. facts.Named.Select(n => new Named(Person(n.Name), DateRange.Of(n.From, n.To)))],
            Promise = working.Promise,
            Windows = working.Windows,
            Plan = working.Promise.Dates,
            Service = facts.Service is { } service ? new ServiceTerms(service.Discipline, service.Kind, service.Place, service.Format) : null,
            Area = facts.Goal?.Area,
        };
        return new(of, working, [.. facts.Given.Select(Entry)], [.. working.PlannedEntries.Select(Planned)],
            [.. facts.Decisions.Select(d => Decision(d, line))], [.. facts.NotGiven.Select(Entry)]);
    }

    private EntryFact Entry(StatementVisit visit) => new(
        null, null, visit.Day, visit.Who is { } who ? Person(who) : 0, Time(visit.Start), Time(visit.End), visit.NotCounted, visit.Observed, visit.Outcome,
        visit.Reason, visit.Place, visit.Format, visit.Value)
    {
        EnteredAfter = visit.EnteredAfter,
        IsCorrected = visit.Corrected,
        Withheld = visit.Withheld,
    };

    /// <summary>Of what was planned only day and minutes were sealed.</summary>
    private static EntryFact Planned(EntryWorking entry) =>
        new(null, null, Day.Date(entry.Entry.Day), 0, null, null, 0, true, Core.Sessions.VisitOutcome.Planned, null, null, null, null);

    private DecisionRow Decision(StatementDecision decision, SealedLine line) => new()
    {
        ServiceId = line.Service,
        GoalId = line.Goal,
        OnDay = decision.Day,
        Amount = decision.Amount.Minutes,
        Sessions = decision.Amount.Sessions,
        Kind = decision.Kind,
        DecidedOn = decision.DecidedOn,
        DecidedBy = [.. decision.People.Select(Person)],
        OthersPresent = decision.Others,
        FamilyToldOn = decision.FamilyToldOn,
        ByDay = decision.By,
        Note = decision.Why,
    };

    private static LocalTime? Time(string? text) => text is null ? null : LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(text).Value;

    private int Person(string name) => _people.TryGetValue(name, out var known) ? known : _people[name] = _people.Count + 1;
}
