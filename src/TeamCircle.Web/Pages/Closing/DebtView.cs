using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Amounts brought forward, in words.</summary>
public static class DebtWords
{
    /// <summary>45 minutes, 2 sessions; nothing.</summary>
    public static string Amount(DebtAmount amount, bool isProbes) => (amount.Minutes, amount.Sessions) switch
    {
        (0, 0) => "nothing",
        (0, var sessions) => Say.Sessions(sessions),
        (var minutes, 0) => Unit(minutes, isProbes),
        var (minutes, sessions) => $"{Unit(minutes, isProbes)} and {Say.Sessions(sessions)}",
    };

    /// <summary>Looking (vision): what a line is called.</summary>
    public static string Line(DebtOnRecord debt) => debt.Line.Service is { } service ? Say.Discipline(service.Discipline) : $"Probes, {debt.Line.Area}";

    /// <summary>week of 14 September; before 17 August, by file.</summary>
    public static string From(DebtOnRecord debt) => debt.Window is { } window
        ? Say.Window(debt.Line.Promise.Every, window.Start)
        : $"from before {Say.Date(debt.Row.OnDay.PlusDays(1))}, brought by file";

    private static string Unit(int count, bool isProbes) => isProbes ? Say.Probes(count) : Say.Minutes(count);
}

/// <summary>Something brought forward in words: what is open, and each step of its account.</summary>
public sealed class DebtView(BroughtForwardPage page, DebtOnRecord debt, bool isOnTeam, bool manages)
{
    public DebtOnRecord Debt => debt;

    public DebtStanding Standing => debt.Account.Standing;

    public string Line => DebtWords.Line(debt);

    public string From => DebtWords.From(debt);

    public string Address => debt.Line.IsProbes ? $"/audit/goals/{debt.Line.Id}" : $"/audit/services/{debt.Line.Id}";

    /// <summary>The statement that brought it forward; null for what a file brought.</summary>
    public string? StatementAddress => debt.Row.PeriodId is { } period ? $"/learners/{page.Learner}/statements/{period}" : null;

    /// <summary>Where people decide about it; null for who may not, and where nothing is open.</summary>
    public string? DecideAddress => manages && (!Standing.Open.IsNothing || debt.Decisions.Any(d => d.Live))
        ? $"/learners/{page.Learner}/brought-forward/{debt.Row.Id}" : null;

    /// <summary>Where a visit that makes up for it is logged; null for who is not on the team, for probes, and where nothing is open.</summary>
    public string? MakeUpAddress => !isOnTeam || debt.Line.IsProbes || Standing.Open.IsNothing ? null
        : $"/visits/new/log?service={debt.Line.Id}&pays={NodaTime.Text.LocalDatePattern.Iso.Format(debt.Row.OnDay)}";

    /// <summary>Where visits for it are looked for; null where the calendar has no window to look at.</summary>
    public string? PlanAddress => !isOnTeam || debt.Line.IsProbes || Standing.Open.IsNothing || debt.Row.PeriodId is not { } period ? null
        : $"/make-up-visits?service={debt.Line.Id}&period={period}";

    public string Open => Amount(Standing.Open);

    public string Opened => Amount(debt.Row.Opened.Amount);

    /// <summary>What is open, part by part.</summary>
    public IEnumerable<string> Parts
    {
        get
        {
            if (!Standing.MakeUp.IsNothing)
                yield return $"{Amount(Standing.MakeUp)} to be made up{(Standing.By is { } by ? $" by {Say.Date(by)}" : "")}";
            if (!Standing.Meeting.IsNothing)
                yield return $"{Amount(Standing.Meeting)} before a team meeting";
            if (!Standing.Undecided.IsNothing)
                yield return $"{Amount(Standing.Undecided)} undecided";
        }
    }

    public bool Waits => !Standing.ToDecide.IsNothing;

    public IEnumerable<DebtStepView> Steps => debt.Account.Steps.Select(s => new DebtStepView(page, debt, s, isOnTeam));

    private string Amount(DebtAmount amount) => DebtWords.Amount(amount, debt.Line.IsProbes);
}

/// <summary>One step of a debt's account: a make-up, or a decision.</summary>
public sealed class DebtStepView(BroughtForwardPage page, DebtOnRecord debt, DebtStep step, bool isOnTeam)
{
    private readonly PayingVisit? _visit = step.Payment is { } payment ? page.VisitOf(debt, payment) : null;
    private readonly DebtDecisionRow? _row = step.Decision is { } decision ? debt.Decisions.First(d => d.Id == decision.Row) : null;

    public string Day => Say.ShortDay(step.On);

    /// <summary>30 minutes made up, Odalys Ferreira.</summary>
    public string What => step.Decision is { } decision
        ? $"{Amount(step.Taken)}: {Say.Decision(decision.Kind)}{(decision.By is { } by ? $" by {Say.Date(by)}" : "")}"
        : $"{Amount(step.Taken)} made up{(_visit is { } visit ? $", {page.People.GetValueOrDefault(visit.ProviderId, "somebody")}" : "")}";

    /// <summary>Who took part and when the family was told; null for a make-up.</summary>
    public string? Who => _row is not { } row ? null
        : $"by {Say.List([.. row.DecidedBy.Select(p => page.People.GetValueOrDefault(p, "somebody")), .. row.OthersPresent is { } others ? [others] : Array.Empty<string>()])}; "
            + (row.FamilyToldOn is { } told ? $"family told on {Say.Date(told)}" : "the family has not been told yet");

    /// <summary>Why, in the words of those who decided; for the learner's team only.</summary>
    public string? Why => isOnTeam ? _row?.Note : null;

    /// <summary>What is open after it.</summary>
    public string After => step.OpenAfter.IsNothing ? "then nothing is open" : $"then {Amount(step.OpenAfter)} open";

    public string? Address => isOnTeam && _visit is { } visit ? $"/visits/{visit.Id}" : null;

    private string Amount(DebtAmount amount) => DebtWords.Amount(amount, debt.Line.IsProbes);
}
