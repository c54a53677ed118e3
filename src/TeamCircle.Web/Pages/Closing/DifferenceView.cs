using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>What differs in one line between an edition of a statement and the one before it, in sentences.</summary>
/// <param name="before">The number of the edition before.</param>
public sealed class DifferenceView(LineDifference difference, int before)
{
    private StatementLine Line => difference.Is ?? difference.Was!;

    private bool IsProbes => Line.Goal is not null;

    public string Title => StatementLineView.TitleOf(Line);

    /// <summary>Given rose from 90 to 120 minutes.</summary>
    public IEnumerable<string> Figures
    {
        get
        {
            if (difference.Was is null)
                yield return "This line is new in this edition.";
            if (difference.Is is null)
                yield return "This line is not in this edition any more.";
            foreach (var figure in difference.Figures)
                yield return $"{Name(figure.Name)} {(figure.Is > figure.Was ? "rose" : "fell")} from {Say.Number(figure.Was)} to {Unit(figure)}.";
            if (difference.Status is { } status)
                yield return $"It was {StatusWords.Of(SealedAnswer.StatusOf(status.Was))}, and is {StatusWords.Of(SealedAnswer.StatusOf(status.Is))}.";
        }
    }

    /// <summary>What was entered, corrected or decided since, and what else the line rests on that differs.</summary>
    public IEnumerable<string> Causes => difference.Visits.Select(Visit).Concat(difference.Decisions.Select(Decision)).Concat(difference.Bases.Select(Basis));

    /// <summary>The visit of 3 October by Odalys Ferreira was entered after edition 1: 30 minutes.</summary>
    private string Visit(VisitChange change)
    {
        var visit = $"The {(IsProbes ? "probe" : "visit")} of {Say.Day(change.Visit.Day)}{(change.Visit.Who is { } who ? $" by {who}" : "")}";
        return (change.Was, change.Is) switch
        {
            (null, var amount) => $"{visit} was entered after edition {before}: {What(change.Visit, amount!.Value)}.",
            (var amount, null) => $"{visit}, {What(change.Visit, amount.Value)}, was taken back.",
            var (was, now) when was == now => $"{visit} was corrected; it stays with {Amount(now.Value)}.",
            var (was, now) => $"{visit} was corrected from {Say.Number(was.Value)} to {What(change.Visit, now.Value)}.",
        };
    }

    private string Decision(DecisionChange change)
    {
        var decision = change.Decision;
        return $"{(change.IsNew ? "Decided since" : "Not among the decisions any more")}: {DebtWords.Amount(decision.Amount, IsProbes)} around {Say.Day(decision.Day)}, {Say.Decision(decision.Kind)}, "
            + $"on {Say.Day(decision.DecidedOn)} by {StatementLineView.TookPart(decision)}.";
    }

    private static string Basis(LineBasis basis) => basis switch
    {
        LineBasis.Promise => "What the plan promises differs.",
        LineBasis.Calendar => "The school calendar or the reporting periods differ.",
        LineBasis.Policy => "The policy differs.",
        _ => "What earlier periods brought forward differs.",
    };

    private string What(StatementVisit visit, int amount) => visit.Outcome == Core.Sessions.VisitOutcome.Given ? Amount(amount) : $"{Amount(amount)}, {Say.Outcome(visit.Outcome)}";

    private string Unit(FigureChange figure) => figure.Name.StartsWith("sessions", StringComparison.Ordinal) ? Say.Sessions(figure.Is) : Amount(figure.Is);

    private string Amount(int count) => IsProbes ? Say.Probes(count) : Say.Minutes(count);

    private static string Name(string figure) => figure switch
    {
        "owed" => "Owed",
        "notOwed" => "Decided not owed",
        "due" => "Due",
        "given" => "Given",
        "lack" => "Not given",
        "undecided" => "Undecided",
        "madeUpSince" => "Made up since the period's end",
        "sessionsDue" => "Sessions due",
        "sessionsGiven" => "Sessions given",
        "sessionsLack" => "Sessions not given",
        "sessionsUndecided" => "Sessions undecided",
        "openOwed" => "Owed in the open window",
        _ => "Given in the open window",
    };
}
