using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.MakeUps;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>The rows of one screen, in groups.</summary>
public sealed record AuditTable(Audit Audit, IReadOnlyList<AuditRow> Rows, AuditAddress Address)
{
    /// <summary>Who reads it.</summary>
    public required Caller Caller { get; init; }

    /// <summary>Null where none are shown.</summary>
    public Forecasts? Forecasts { get; init; }

    private AuditBy By => Address.Filter.By;

    /// <summary>Whether earlier periods brought something forward to one of the rows.</summary>
    public bool HasBroughtForward => Rows.Any(r => !r.Balance.BroughtForward.IsNothing);

    /// <summary>Whether one of the rows has an award of compensatory services beside it.</summary>
    public bool HasAwards => By != AuditBy.Provider && Rows.Any(r => Audit.AwardsOf(Audit.Lines[r.Line]).Any());

    /// <summary>What planned visits are likely to bring to a line; null where there is nothing to say, and beside a provider's share.</summary>
    public LineForecast? Forecast(AuditRowView row) => By == AuditBy.Provider ? null : Forecasts?.Of(row.Commitment, row.Working);

    /// <summary>Where visits for a line are looked for; null where nothing is to plan, and for who may not.</summary>
    public string? PlanAddress(AuditRowView row)
    {
        var named = row.Commitment.IsNamed(Caller.PersonId, Audit.At.AsOf) ? Caller.PersonId : 0;
        var isToPlan = !row.Commitment.IsProbes && row.Balance.Minutes.StillToPlan > 0 && Audit.AsOf == Caller.Today;
        return isToPlan && MakeUpFacts.MayPlan(Caller, row.Commitment.LearnerId, named) ? $"/make-up-visits?service={row.Commitment.Id}&period={Audit.Period.Id}" : null;
    }

    public IEnumerable<IGrouping<string, AuditRowView>> Groups =>
        Rows.Select(r => new AuditRowView(Audit, r, By)).GroupBy(r => r.Line.IsUnassigned ? "Nobody assigned" : GroupOf(r));

    private string GroupOf(AuditRowView row) => By switch
    {
        AuditBy.Provider => Audit.Names.Person(row.Row.ProviderId!.Value),
        AuditBy.Service => row.Commitment.Service is { } service ? Say.Discipline(service.Discipline) : "Probes",
        _ => row.Learner,
    };
}

/// <summary>One row in words and figures.</summary>
public sealed class AuditRowView(Audit audit, AuditRow row, AuditBy by)
{
    public AuditRow Row => row;

    public AuditLine Line => audit.Lines[row.Line];

    public CommitmentLine Commitment => Line.Line;

    public Balance Balance => row.Balance;

    public string Learner => audit.Names.Learners[Commitment.LearnerId].Name;

    /// <summary>The learner's name where rows are not grouped by learner.</summary>
    public string? LearnerAside => by == AuditBy.Learner && !Line.IsUnassigned ? null : Learner;

    /// <summary>Vision; Probes: looking.</summary>
    public string Name => StandingWords.Name(Commitment);

    public string Unit => Commitment.IsProbes ? "probes" : "minutes";

    public string Providers => Commitment.Named.Length == 0
        ? "nobody assigned" : Say.List([.. Commitment.Named.Select(n => audit.Names.Person(n.PersonId)).Distinct()]);

    /// <summary>4 of 6; null where the plan promises no sessions.</summary>
    public string? Sessions => Balance.HasSessions
        ? $"{Say.Number(Balance.Sessions.GivenSoFar)} of {Say.Number(Balance.Sessions.DueSoFar)}" : null;

    /// <summary>30 open, 20 made up; null where earlier periods brought nothing forward.</summary>
    public string? BroughtForward => Balance.BroughtForward.IsNothing ? null
        : $"{Closing.DebtWords.Amount(Balance.BroughtForward.Open, Commitment.IsProbes)} open, {Closing.DebtWords.Amount(Balance.BroughtForward.Paid, Commitment.IsProbes)} made up";

    /// <summary>90 minutes left of 120; null without an award.</summary>
    public string? Awards => Say.List([.. audit.AwardsOf(Line).Select(a => $"{Closing.AwardWords.Amount(a.Unit, a.Left)} left of {Say.Number(a.Awarded)}, {Say.Number(a.Given)} given")]) is { Length: > 0 } words ? words : null;

    /// <summary>What is open at the period's end, where something is: 30 of 120 given, pace 35.</summary>
    public string? Open => Balance.Open.Windows == 0 || Balance.Status == Status.CannotJudge ? null
        : $"open: {Say.Number(Balance.Open.Given)} of {Say.Number(Balance.Open.Owed)} given, pace {Say.Number(Balance.Open.Pace)}";

    public Working Working { get; } = audit.Explain(row.Line);

    public Rail Rail => LineRail.Of(Working, Unit);
}

/// <summary>The minute rail of a line: the windows that close in the period, and the one open at its end.</summary>
public static class LineRail
{
    public static Rail Of(Working working, string unit)
    {
        var at = working.At;
        var windows = working.Closing.Concat(working.Open.Select(o => o.Window));
        return new(Day.Date(at.Period.First), Day.Date(at.Period.Last), Day.Date(at.AsOf), unit, [.. windows.Select(w => StandingWords.Cell(working.Promise.Every, w))]);
    }
}
