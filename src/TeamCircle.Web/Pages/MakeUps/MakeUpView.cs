using System.Globalization;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Time;
using TeamCircle.Data.MakeUps;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.MakeUps;

/// <summary>The page in words: what lacks, the proposals day by day, what stays unmet and why.</summary>
/// <param name="Run">Null where nobody has searched: the proposal found at once is shown.</param>
public sealed record MakeUpView(MakeUpFacts Facts, MakeUpAsk Ask, MakeUpRun? Run, IReadOnlyCollection<RefusedDay> Refused)
{
    public IReadOnlyList<ProposalView> Proposals { get; } =
        [.. (Run?.Proposals ?? [MakeUpPlanner.First(Facts.Problem)]).Select((answer, i) => new ProposalView(Facts, Ask, Run, Refused, answer, i + 1))];

    /// <summary>The address of a handler, with what is looked for; of the page itself where it is empty.</summary>
    public string Address(string handler) => AddressOf(Ask, handler);

    internal static string AddressOf(MakeUpAsk ask, string handler)
    {
        List<string> parts = [];
        if (handler.Length > 0)
            parts.Add($"handler={handler}");
        if (ask.Learner is { } learner)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"learner={learner}"));
        if (ask.Service is { } service)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"service={service}"));
        if (ask.Period is { } period)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"period={period}"));
        return parts.Count == 0 ? "/make-up-visits" : "/make-up-visits?" + string.Join('&', parts);
    }

    public bool IsSearching => Run is { IsOver: false };

    public int Lacking => Facts.Lacking.Sum(l => l.Minutes);

    /// <summary>How far a search is; no names.</summary>
    public static string Progress(MakeUpRun run)
    {
        var best = run.Proposals[0];
        var found = $"{Say.Minutes(best[LevelName.Unmet].Value)} unmet, {Say.Count(best[LevelName.ExtraTrips].Value, "extra trip")}, {Say.Count(best.Visits.Count, "visit")}";
        return run.State switch
        {
            MakeUpState.Waiting => $"Another search is going on; this one comes next. Found at once: {found}.",
            MakeUpState.Running => $"Looking for better ones. Best so far: {found}.",
            MakeUpState.Failed => "The search ended by a fault of this portal. What was found before stands below.",
            MakeUpState.Stopped => $"Stopped. Best so far: {found}.",
            _ => $"The search is over: {found}.",
        };
    }

    /// <summary>What nobody entered and what was taken instead.</summary>
    public IEnumerable<string> Assumed
    {
        get
        {
            var hours = $"{Say.Times(MakeUpAssumed.From, MakeUpAssumed.To)} is assumed";
            if (Facts.Assumed.Providers.Count > 0)
                yield return $"No working hours are entered for {Say.List([.. Facts.Assumed.Providers.Select(Facts.Names.Person)])}: {hours}.";
            if (Facts.Assumed.Learners.Count > 0)
                yield return $"No open hours are entered for {Say.List([.. Facts.Assumed.Learners.Select(l => Facts.Names.Learners[l].Name)])}: {hours}.";
            if (Facts.Assumed.TravelMinutes is { } minutes)
                yield return $"Some ways between places have no travel time: {Say.Minutes(minutes)} are assumed.";
        }
    }

    /// <summary>Vision for Wren Belmares: 60 minutes in the week of 14 September.</summary>
    public static string Name(MakeUpFacts facts, LackingWindow lacking) =>
        $"{Say.Discipline(lacking.Line.Service!.Discipline)} for {facts.Names.Learners[lacking.Line.LearnerId].Name}";

    public static string Window(LackingWindow lacking) => Say.Window(lacking.Line.Promise.Every, lacking.First);
}

/// <summary>One proposal: how good it is, its visits, what it leaves unmet.</summary>
public sealed class ProposalView(MakeUpFacts facts, MakeUpAsk ask, MakeUpRun? run, IReadOnlyCollection<RefusedDay> refused, MakeUpAnswer answer, int number)
{
    public int Number => number;

    public string Address(string handler) => MakeUpView.AddressOf(ask, handler);

    /// <summary>By day, earliest first.</summary>
    public IEnumerable<IGrouping<LocalDate, VisitView>> Days =>
        answer.Visits.Select(v => new VisitView(facts, run, refused, v)).GroupBy(v => v.OnDay);

    /// <summary>How good it is, level by level, and how sure that is.</summary>
    public IEnumerable<string> Levels
    {
        get
        {
            var unmet = answer[LevelName.Unmet];
            yield return unmet.Value == 0 ? "Everything that lacks is made up."
                : $"{Say.Minutes(unmet.Value)} stay unmet{Sure(unmet)}.";
            yield return $"{Say.Count(answer[LevelName.ExtraTrips].Value, "extra trip")}{Sure(answer[LevelName.ExtraTrips])}.";
            yield return $"{Say.Count(answer.Visits.Count, "visit")}{Sure(answer[LevelName.Visits])}.";
            yield return answer[LevelName.Days].IsProven ? "No proposal as good as this has earlier days." : "On days as early as the search found; earlier ones may be possible.";
        }
    }

    public IEnumerable<(string What, string Why)> Unmet => answer.Unmet.Select(u =>
        ($"{MakeUpView.Name(facts, facts.Lacking[u.Need])}, {MakeUpView.Window(facts.Lacking[u.Need])}: {Say.Minutes(u.Minutes)}", Why(u)));

    private static string Sure(Level level) => level.IsProven ? ", proven to be the fewest possible"
        : level.Bound <= 0 ? "; whether fewer are possible is not known yet"
        : string.Create(CultureInfo.InvariantCulture, $"; fewer than {level.Bound} are proven impossible");

    private string Why(UnmetNeed unmet) => unmet.Because switch
    {
        UnmetReason.ProviderHours => $"More would be possible with longer working hours of {facts.Names.Person(facts.Lacking[unmet.Need].ProviderId)}.",
        UnmetReason.ProviderDay => $"More would be possible if {facts.Names.Person(facts.Lacking[unmet.Need].ProviderId)} gave more minutes a day.",
        UnmetReason.LearnerHours => "More would be possible with longer open hours of the learner.",
        UnmetReason.LearnerDay => "More would be possible if the learner could take more minutes a day.",
        UnmetReason.Travel => "More would be possible without the time to travel.",
        UnmetReason.Days => "More would be possible on more days: too few are left on which both have room.",
        UnmetReason.Lengths => "The smallest and the largest visit do not add up to what lacks.",
        UnmetReason.SearchEnded => run is { State: MakeUpState.Done } ? "More may be possible: the search ended before." : "Not searched yet.",
        _ => "More than one limit stands in the way.",
    };
}

/// <summary>One proposed visit.</summary>
public sealed class VisitView(MakeUpFacts facts, MakeUpRun? run, IReadOnlyCollection<RefusedDay> refused, ProposedVisit visit)
{
    private LackingWindow Lacking => facts.Lacking[visit.Need];

    public LocalDate OnDay => Day.Date(visit.When.Day);

    public LocalTime Start => LocalTime.FromMinutesSinceMidnight(visit.When.Start);

    public int Minutes => visit.When.Minutes;

    public string Times => Say.Times(Start, Start.PlusMinutes(Minutes));

    public string Name => MakeUpView.Name(facts, Lacking);

    public string Provider => facts.Names.Person(Lacking.ProviderId);

    /// <summary>What it pays; nothing where it lies in its own window.</summary>
    public string Pays => Lacking.Window.Holds(visit.When.Day) ? $"in {TheWindow} itself" : $"makes up for {TheWindow}";

    private string TheWindow => Say.TheWindow(Lacking.Line.Promise.Every, Lacking.First);

    public bool IsAccepted => run?.IsAccepted(visit) == true;

    public bool IsRefused => refused.Contains(new(Lacking.Line.Id, Lacking.First, OnDay));

    /// <summary>What the forms send.</summary>
    public IEnumerable<(string Name, string Value)> Fields =>
    [
        ("Input.Service", Number(Lacking.Line.Id)),
        ("Input.Window", LocalDatePattern.Iso.Format(Lacking.First)),
        ("Input.Provider", Number(Lacking.ProviderId)),
        ("Input.OnDay", LocalDatePattern.Iso.Format(OnDay)),
        ("Input.Start", Start.ToString("HH:mm", CultureInfo.InvariantCulture)),
        ("Input.Minutes", Number(Minutes)),
    ];

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
