using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Pages.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>A sealed statement in words.</summary>
/// <param name="withNotes">Whether the reader is of the learner's team, who alone read the words beside decisions.</param>
public sealed class StatementView(StatementPage page, bool withNotes)
{
    public StatementPage Page => page;

    public StatementFacts Facts => page.Facts;

    public string Address => $"/learners/{page.Row.LearnerId}/statements/{page.Row.PeriodId}";

    public bool WithNotes => withNotes;

    /// <summary>Edition 2; Edition 1 of 2, which stands in its place.</summary>
    public string Edition => page.Row.Edition == page.Latest ? $"Edition {Say.Number(page.Row.Edition)}"
        : $"Edition {Say.Number(page.Row.Edition)}; edition {Say.Number(page.Latest)} stands in its place";

    /// <summary>The other editions, by number.</summary>
    public IEnumerable<int> Others => Enumerable.Range(1, page.Latest).Where(e => e != page.Row.Edition);

    public IEnumerable<StatementLineView> Lines => page.Lines.Select(l => new StatementLineView(page, l, withNotes));

    /// <summary>What differs from the edition before; null for the first.</summary>
    public IReadOnlyList<DifferenceView>? Differences => page.Differences is { } all ? [.. all.Select(d => new DifferenceView(d, page.Row.Edition - 1))] : null;

    /// <summary>The policy under which it was counted, in sentences.</summary>
    public IEnumerable<string> Policy
    {
        get
        {
            var policy = page.Policy;
            foreach (var sentence in AuditWords.Policy(new(policy.ShortWindow, policy.Surplus, policy.TolerancePercent, policy.SessionShare)))
                yield return sentence;
            if (AuditWords.Written(new PolicyRow { PolicyWords = policy.Words, WrittenIn = policy.WrittenIn }) is { } written)
                yield return written;
        }
    }

    /// <summary>What was left standing, each with the word why.</summary>
    public IEnumerable<(string What, string Why)> Left => page.Left.Select(l => ($"{ClosingWords.Head(l.Kind)}{About(l)}: {Say.Number(l.Count)}{Days(l)}", l.Why));

    /// <summary>How many visits were entered late, and how late.</summary>
    public string Late
    {
        get
        {
            var visits = page.Lines.SelectMany(l => l.Facts.Given).Where(g => g.Who is not null && g.Value is null).ToList();
            var late = visits.Select(g => g.EnteredAfter).OfType<int>().Where(d => d > 0).Order().ToList();
            var byFile = visits.Count(g => g.EnteredAfter is null);
            var entered = visits.Count - byFile;
            return (entered == 0 ? ""
                : late.Count == 0 ? "Every visit that a person entered was entered on its own day. "
                : $"{Say.Count(late.Count, "visit")} of {Say.Number(entered)} {(late.Count == 1 ? "was" : "were")} entered or corrected after the day itself, the latest {Say.Count(late[^1], "day")} after. ")
                + (byFile == 0 ? "" : $"{Say.Count(byFile, "visit")} came by file; when they were first written down is not on record.");
        }
    }

    /// <summary>How many visits have times that somebody typed or measured.</summary>
    public string Observed
    {
        get
        {
            var visits = page.Lines.SelectMany(l => l.Facts.Given).Where(g => g.Who is not null && g.Value is null).ToList();
            return $"Of {Say.Count(visits.Count, "visit")} given, {Say.Number(visits.Count(v => v.Observed))} have times that were typed or measured, and {Say.Number(visits.Count(v => !v.Observed))} have the times of the plan.";
        }
    }

    private string About(LeftStanding left) => page.Lines.FirstOrDefault(l => (left.Service is not null && l.Sealed.Service == left.Service) || (left.Goal is not null && l.Sealed.Goal == left.Goal)) is { } line
        ? $", {Say.Within(StatementLineView.TitleOf(line.Facts))}" : "";

    private static string Days(LeftStanding left) => left.Days.Count == 0 ? "" : $" ({Say.List([.. left.Days.Take(12).Select(Say.ShortDay)])}{(left.Days.Count > 12 ? " and later" : "")})";
}

/// <summary>One line of a statement in words.</summary>
public sealed class StatementLineView(StatementPage page, StatementLineRead line, bool withNotes)
{
    public StatementLine Facts => line.Facts;

    public bool IsProbes => line.Facts.Goal is not null;

    public string Title => TitleOf(line.Facts);

    public SealedAnswer Answer => line.Answer;

    public Status Status => SealedAnswer.StatusOf(line.Answer.Status);

    /// <summary>Occupational therapy; Probes: communication (Priya Lindqvist).</summary>
    public static string TitleOf(StatementLine facts) => facts switch
    {
        { Service: { } service } => Say.Discipline(service.Discipline),
        { Goal: { } goal } => $"Probes: {Say.Within(goal.Area)}{(goal.Owner is { } owner ? $" ({owner})" : "")}",
        _ => facts.Code,
    };

    /// <summary>Everybody who took part in a decision.</summary>
    public static string TookPart(StatementDecision decision) => Say.List([.. decision.People, .. decision.Others is { } others ? [others] : Array.Empty<string>()]);

    /// <summary>Whether the sums below lead to the sealed figures; they do unless the rules have changed since.</summary>
    public bool Fits => line.Fits;

    /// <summary>The promise in words, version by version, with the plan's own.</summary>
    public IEnumerable<(string Read, string? Words)> Promised => IsProbes
        ? [.. Working.Promise.Versions.Select(v => ($"From {Say.Date(Day.Date(v.From))}: {Say.Probes(v.Quantity)} {Say.Every(Working.Promise.Every)}", (string?)null))]
        : [.. line.Facts.Versions.Select(v => (
            $"From {Say.Date(v.From)}: {Say.Promise(v.Quantity, v.QuantityTo, v.Sessions, Working.Promise.Every)}, {Say.Place(line.Facts.Service!.Place)}, {Say.Format(line.Facts.Service.Format)}",
            v.Words is { } words ? $"{words}{(v.Page is { } at ? $" (page {at})" : "")}" : null))];

    public string Named => line.Facts.Named.Count == 0 ? "nobody assigned" : Say.List([.. line.Facts.Named.Select(n => $"{n.Name} ({Say.Dates(n.From, n.To)})")]);

    /// <summary>The sealed figures, each with the sum that leads to it.</summary>
    public IEnumerable<(string Name, string Figure)> Figures
    {
        get
        {
            var a = line.Answer;
            yield return ("Owed", Sum(w => w.Owed, a["owed"]));
            if (a["notOwed"] > 0)
            {
                yield return ("Decided not owed", Sum(w => w.NotOwed, a["notOwed"]));
                yield return ("Due", $"{Say.Number(a["owed"])} owed − {Say.Number(a["notOwed"])} decided not owed = {Amount(a["due"])}");
            }
            yield return ("Given", $"{Sum(w => w.Given, a["given"])}{(a["madeUpSince"] > 0 ? $", {Say.Number(a["madeUpSince"])} of them by make-ups after the period" : "")}");
            yield return ("Not given", NotGiven);
            if (a.HasSessions)
                yield return ("Sessions", $"{Say.Number(a["sessionsGiven"])} given, {Say.Sessions(a["sessionsDue"])} due, {Say.Number(a["sessionsLack"])} not given");
            if (a["openOwed"] > 0)
                yield return ("Open at the period's end", $"{Amount(a["openGiven"])} given, {Amount(a["openPace"])} would keep pace, {Amount(a["openOwed"])} owed when it closes");
            if (a["outside"] > 0)
                yield return ("Counts nowhere", Amount(a["outside"]));
        }
    }

    public IEnumerable<WindowView> Windows => new LedgerView(page.Names, line.Ledger, withNotes, false).Windows;

    /// <summary>What earlier periods brought forward, as it stood on the day of the closing.</summary>
    public IEnumerable<(string What, IEnumerable<string> Steps)> BroughtForward => line.Facts.BroughtForward.Select(d => (
        $"{Both(d.Opened)} from {(d.First is { } first ? Say.TheWindow(Working.Promise.Every, first) : $"before {Say.Date(d.Day.PlusDays(1))}")}: {Both(d.Open)} open",
        d.Paid.Select(p => $"{Say.ShortDay(p.Day)}: {Both(p.Paid)} made up").Concat(d.Decisions.Select(Decided))));

    private Working Working => line.Ledger.Working;

    /// <summary>Each window alone, or the whole period where surplus carries.</summary>
    private string NotGiven
    {
        get
        {
            var a = line.Answer;
            var words = page.Policy.Surplus == Surplus.CarryWithinPeriod && a["lack"] > 0
                ? $"{Say.Number(a["due"])} due − {Say.Number(a["given"])} given = {Amount(a["lack"])}" : Sum(w => w.Lack, a["lack"]);
            return a["undecided"] > 0 ? $"{words}, {Say.Number(a["undecided"])} of them undecided" : words;
        }
    }

    private string Decided(StatementDecision d) =>
        $"{Say.ShortDay(d.DecidedOn)}: {Both(d.Amount)}: {Say.Decision(d.Kind)}{(d.By is { } by ? $" by {Say.Date(by)}" : "")}, by {TookPart(d)}; "
        + $"{(d.FamilyToldOn is { } told ? $"family told on {Say.Date(told)}" : "the family had not been told")}{(withNotes && d.Why is { } why ? $". {why}" : "")}";

    private string Both(DebtAmount amount) => DebtWords.Amount(amount, IsProbes);

    /// <summary>60 + 45 = 105 minutes, window by window; the figure alone where one window closes, or the sums do not lead to it.</summary>
    private string Sum(Func<WindowBalance, int> pick, int figure) => !line.Fits || figure == 0 || Working.Closing.Count < 2 ? Amount(figure)
        : $"{string.Join(" + ", Working.Closing.Select(w => Say.Number(pick(w.Minutes))))} = {Amount(figure)}";

    private string Amount(int count) => IsProbes ? Say.Probes(count) : Say.Minutes(count);
}
