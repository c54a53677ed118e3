using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>One line of a working page in words: its windows with every visit and decision, and what counts nowhere.</summary>
public sealed class LedgerView(AuditNames names, LedgerLine line, bool isOnTeam, bool mayDecide)
{
    public AuditNames Names => names;

    /// <summary>The reporting period, for what leads to other pages; null for a sealed statement, which leads nowhere.</summary>
    public int? Period { get; init; }

    public Working Working => line.Working;

    public CommitmentLine Line => line.Line;

    public bool IsProbes => line.Line.IsProbes;

    public BalanceSums Sums => new(line.Working, IsProbes);

    public Rail Rail => LineRail.Of(line.Working, IsProbes ? "probes" : "minutes");

    /// <summary>What planned visits are likely to bring; null where there is nothing to say.</summary>
    public LineForecast? Forecast { get; init; }

    /// <summary>Whether the reader may plan make-up visits for it.</summary>
    public bool MayPlanVisits { get; init; }

    /// <summary>Where visits are looked for; null where nothing is to plan, and for who may not.</summary>
    public string? PlanAddress => MayPlanVisits && !IsProbes && Working.Balance.Minutes.StillToPlan > 0 ? $"/make-up-visits?service={line.Line.Id}&period={Period}" : null;

    /// <summary>Where what earlier periods brought forward is shown; null where nothing was, and in a sealed statement.</summary>
    public string? BroughtForwardAddress => Period is null || Working.Debts.Count == 0 ? null : $"/learners/{line.Line.LearnerId}/brought-forward";

    /// <summary>Visits and probes open, and notes are read, by the learner's team only.</summary>
    public bool IsOnTeam => isOnTeam;

    /// <summary>For probes asked of each owner: whose they are.</summary>
    public string? Owner => line.Line.OwnerId is { } owner ? names.Person(owner) : null;

    /// <summary>Who was named and when.</summary>
    public string Named => line.Line.Named.Length == 0 ? "nobody assigned"
        : Say.List([.. line.Line.Named.Select(n => $"{names.Person(n.PersonId)} ({Say.Dates(n.Days.Start, n.Days.End)})")]);

    /// <summary>What each person gave in the period, themselves.</summary>
    public IEnumerable<(string Name, string Amount)> Gave =>
        Given.Where(e => e.Fact.ProviderId > 0 && Working.At.Period.Holds(e.Entry.Entry.Day) && e.Entry.Fate != Fate.AfterAsOf)
            .GroupBy(e => e.Fact.ProviderId)
            .Select(g => (names.Person(g.Key), Amount(g.Sum(e => e.Entry.Entry.Amount))));

    /// <summary>The windows that close in the period, then the open one.</summary>
    public IEnumerable<WindowView> Windows => Working.Closing.Select(w => new WindowView(this, w, null))
        .Concat(Working.Open.Select(o => new WindowView(this, o.Window, o.Pace)));

    /// <summary>What counts for nothing, whatever the period.</summary>
    public IEnumerable<EntryView> Nowhere => Given.Where(e => e.Entry.CountsNowhere || e.Entry.Fate == Fate.NamesNoWindow);

    /// <summary>Visits planned before the as-of day and never logged.</summary>
    public IEnumerable<EntryView> NeverLogged => Planned.Where(e => e.Entry.Fate == Fate.NeverLogged);

    /// <summary>Decisions that name no window.</summary>
    public IEnumerable<DecisionView> Ignored => Decisions.Where(d => d.Working.Window < 0);

    internal IEnumerable<EntryView> Given => Working.GivenEntries.Select(e => new EntryView(this, e, line.Given[e.Index]));

    internal IEnumerable<EntryView> Planned => Working.PlannedEntries.Select(e => new EntryView(this, e, line.Planned[e.Index]));

    internal IEnumerable<DecisionView> Decisions =>
        Working.Decisions.Zip(line.Decisions, (working, row) => new DecisionView(this, working, row, isOnTeam));

    internal IEnumerable<EntryFact> NotGiven => line.NotGiven;

    internal string Amount(int count) => IsProbes ? Say.Probes(count) : Say.Minutes(count);

    /// <summary>Where what lacks in a window is decided; null for a reader who may not.</summary>
    internal string? DecideAddress(WindowWorking window)
    {
        if (!mayDecide || Period is null)
            return null;
        if (Working.Debts.Any(d => !d.IsFromFile && Working.Windows.Find(d.Day) == window.Index))
            return $"{BroughtForwardAddress}";
        var day = NodaTime.Text.LocalDatePattern.Iso.Format(Day.Date(window.Window.Active.First));
        return IsProbes ? $"/audit/goals/{line.Line.Id}/decide?day={day}&owner={line.Line.OwnerId}" : $"/audit/services/{line.Line.Id}/decide?day={day}";
    }

    /// <summary>Where the reader logs a visit that makes up for a window; null for readers who are not on the team, and for probes.</summary>
    internal string? MakeUpAddress(WindowWorking window) => !isOnTeam || IsProbes || Period is null ? null
        : $"/visits/new/log?service={line.Line.Id}&pays={NodaTime.Text.LocalDatePattern.Iso.Format(Day.Date(window.Window.Active.First))}";

    /// <summary>What the windows of a service that have closed lack: week of 26 October (30 minutes, such as 26 Oct). Null where nothing does.</summary>
    public static string? Lacking(LedgerPage? page)
    {
        var lacking = page?.Lines.SelectMany(l => l.Working.Closing.Where(w => w.IsPast && w.Minutes.Lack > 0)
            .Select(w => $"{Say.Window(l.Working.Promise.Every, w.Window.Days.Start)}, {Say.Minutes(w.Minutes.Lack)} (such as {Say.ShortDay(Day.Date(w.Window.Active.First))})")).ToList();
        return lacking is { Count: > 0 } ? Say.List(lacking) : null;
    }

    internal string WindowName(int index) => Say.Window(Working.Promise.Every, Working.Windows.All[index].Days.Start);

    internal string TheWindow(int index) => Say.TheWindow(Working.Promise.Every, Working.Windows.All[index].Days.Start);
}

/// <summary>One window with everything that happened in it.</summary>
public sealed class WindowView(LedgerView line, WindowWorking window, PaceWorking? pace)
{
    /// <summary>One of its own on the page: a statement shows the same week for every service, and a goal for each of its owners.</summary>
    public string Id => IsSealed
        ? $"window-{(line.IsProbes ? "goal" : "service")}-{line.Line.Id}-{line.Line.OwnerId}-{window.Window.Days.Start:uuuu-MM-dd}"
        : PlaceOf(line.Line, window.Window);

    /// <summary>Where a window stands on the page that works out its line; a goal's page has the same week for each of its owners.</summary>
    public static string PlaceOf(CommitmentLine line, Window window) => $"window-{(line.OwnerId is { } owner ? $"{owner}-" : "")}{window.Days.Start:uuuu-MM-dd}";

    /// <summary>The same as the end of an address, of the oldest window in which something is undecided; empty where nothing is.</summary>
    public static string OldestUndecided(CommitmentLine line, in Balance balance)
    {
        foreach (var window in line.Windows.All)
        {
            if (balance.UndecidedSince != Day.None && window.Closes == balance.UndecidedSince)
                return $"#{PlaceOf(line, window)}";
        }
        return "";
    }

    public string Name => Say.Begin(line.WindowName(window.Index));

    public string Dates => Say.Dates(window.Window.Days.Start, window.Window.Days.End);

    public WindowSums Sums => new(line.Working, window, line.IsProbes);

    public WindowWorking Window => window;

    public bool IsOnTeam => line.IsOnTeam;

    /// <summary>In a sealed statement nothing waits for anybody.</summary>
    public bool IsSealed => line.Period is null;

    /// <summary>For an open window how its pace was worked out; null otherwise.</summary>
    public string? Pace => pace is null ? null : line.Sums.Pace(pace);

    /// <summary>Visits and probes that count here, or pay here as make-ups.</summary>
    public IEnumerable<EntryView> Given => line.Given.Where(e => e.Touches(window.Index));

    public IEnumerable<EntryView> Planned => line.Planned.Where(e => e.Touches(window.Index));

    public IEnumerable<EntryFact> NotGiven => line.NotGiven.Where(n => window.Window.Days.Holds(Day.Of(n.OnDay)));

    public IEnumerable<DecisionView> Decisions => line.Decisions.Where(d => d.Working.Window == window.Index);

    /// <summary>Where people decide about it: there while something lacks or was decided, for who may.</summary>
    public string? DecideAddress =>
        IsToDecide || Decisions.Any() ? line.DecideAddress(window) : null;

    /// <summary>Where a visit that makes up for it is logged: there while it lacks something, after its end.</summary>
    public string? MakeUpAddress => window.IsPast && window.Minutes.Lack > 0 ? line.MakeUpAddress(window) : null;

    /// <summary>It is over, and something was not given.</summary>
    public bool Lacks => window.IsPast && (window.Minutes.Lack > 0 || window.Sessions.Lack > 0);

    /// <summary>Something lacks for which no visit is planned, or lacked when it closed.</summary>
    private bool IsToDecide => window.IsPast ? Lacks : window.Minutes.Short > 0 || window.Sessions.Short > 0;

    /// <summary>What lacks in it and nobody decided about; null where nothing does.</summary>
    public string? Undecided => window.IsPast && window.Minutes.Undecided > 0 ? line.Amount(window.Minutes.Undecided)
        : window.IsPast && window.Sessions.Undecided > 0 ? Say.Sessions(window.Sessions.Undecided) : null;
}

/// <summary>One visit or probe, and where its minutes went.</summary>
public sealed class EntryView(LedgerView line, EntryWorking entry, EntryFact fact)
{
    public EntryWorking Entry => entry;

    public EntryFact Fact => fact;

    public LocalDate OnDay => fact.OnDay;

    public string? Times => fact.Start is { } start && fact.End is { } end ? Say.Times(start, end) : null;

    public string Who => fact.ProviderId == 0 ? entry.IsPlanned ? "a visit to come" : "brought along when the agency began here" : line.Names.Person(fact.ProviderId);

    /// <summary>30 minutes, 5 of them not counted, times from the plan.</summary>
    public string Amount
    {
        get
        {
            var words = line.Amount(entry.Entry.Amount);
            if (fact.NotCounted > 0)
                words += $" after {Say.Number(fact.NotCounted)} that do not count";
            if (fact.Withheld is { } why)
                words += $", {Say.Withheld(why)}";
            if (!fact.IsObserved)
                words += ", times from the plan";
            if (fact.EnteredAfter is > 0 and var days)
                words += $", {(fact.IsCorrected ? "corrected" : "entered")} {Say.Count(days, "day")} after";
            return words;
        }
    }

    /// <summary>Where it was given, and how, as far as that is not what was promised.</summary>
    public string? Otherwise
    {
        get
        {
            if (entry.IsPlanned || line.Line.Service is not { } promised)
                return null;
            List<string> parts = [];
            if (fact.Place is { } place && place != promised.Place)
                parts.Add(Say.Place(place));
            if (fact.Format is { } format && format != promised.Format)
                parts.Add(format == SessionFormat.Group ? "in a group" : "not in a group");
            if (fact.ProviderId > 0 && !line.Line.IsNamed(fact.ProviderId, entry.Entry.Day))
                parts.Add("by somebody not named for it");
            return parts.Count == 0 ? null : $"otherwise than promised: {Say.List(parts)}";
        }
    }

    /// <summary>The page on which it can be corrected; null for what was brought along, and for readers who are not on the team.</summary>
    public string? Address => !line.IsOnTeam ? null : fact.VisitId is { } visit ? $"/visits/{visit}" : fact.ProbeId is null ? null : $"/goals/{line.Line.Id}";

    /// <summary>Whether a part of it counts or pays in a window.</summary>
    public bool Touches(int window) => entry.Fate is Fate.Ordinary or Fate.MakeUp && (entry.Parts.Own == window || entry.Parts.Pays == window);

    /// <summary>Where its minutes went, told from a window.</summary>
    public string WentTo(int window)
    {
        var (parts, counts) = (entry.Parts, entry.IsPlanned ? "would count" : "count");
        if (entry.Fate == Fate.Ordinary)
            return $"{Say.Number(parts.Counted)} {counts} here{Session(window)}";
        if (parts is { Debt: not null, Pays: null })
            return $"make-up for what was brought forward by file, which takes {Say.Number(parts.Paid)}: {Say.Number(parts.Counted)} {counts} here{Session(window)}";
        if (parts.Pays == window)
            return $"make-up: {(entry.IsPlanned ? "would pay" : "pays")} {Say.Number(parts.Paid)} here{Session(window)}{Rest()}";
        return $"make-up for {line.TheWindow(parts.Pays!.Value)}{(parts.Debt is null ? "" : ", brought forward")}, which takes {Say.Number(parts.Paid)}: {Say.Number(parts.Counted)} {counts} here{Session(window)}";
    }

    /// <summary>Why it, or a part of it, counts for nothing.</summary>
    public string Nowhere => entry.Fate switch
    {
        Fate.OutsideTheDates => "lies outside the dates of the plan's line",
        Fate.InNoWindow => "lies in no window",
        Fate.NoSchoolDayInWindow => "its window has no school day",
        Fate.NamesNoWindow => $"makes up for {Say.Day(Day.Date(entry.Entry.Pays))}, when nothing was owed",
        _ => $"{line.Amount(entry.Parts.Outside)} left over from a make-up, outside the dates",
    };

    private string Session(int window) => !line.Working.Promise.HasSessions ? ""
        : entry.Parts.SessionOf == window ? ", as one session"
        : entry.Parts.SessionOf is null && entry.Fate == Fate.Ordinary ? ", too short for a session" : "";

    private string Rest() => entry.Parts switch
    {
        { Outside: > 0 and var outside } => $"; {Say.Number(outside)} count nowhere",
        { Counted: > 0 and var rest, Own: { } own } => $"; {Say.Number(rest)} {(entry.IsPlanned ? "would count" : "count")} in {line.TheWindow(own)}",
        _ => "",
    };
}

/// <summary>One decision: what, who took part, when the family was told.</summary>
public sealed class DecisionView(LedgerView line, DecisionWorking working, DecisionRow row, bool mayReadNotes)
{
    public DecisionWorking Working => working;

    public DecisionRow Row => row;

    /// <summary>30 minutes (1 session): not owed.</summary>
    public string What => $"{line.Amount(row.Amount)}{(working.Sessions > 0 ? $" ({Say.Sessions(working.Sessions)})" : "")}: {Say.Decision(row.Kind)}"
        + (row.ByDay is { } by ? $" by {Say.Day(by)}" : "");

    public string Who => $"decided on {Say.Day(row.DecidedOn)} by {Say.List([.. row.DecidedBy.Select(line.Names.Person), .. row.OthersPresent is { } others ? [others] : Array.Empty<string>()])}";

    public string Told => row.FamilyToldOn is { } day ? $"family told on {Say.Day(day)}" : "the family has not been told yet";

    /// <summary>Why, in the words of those who decided; for the learner's team only.</summary>
    public string? Note => mayReadNotes ? row.Note : null;
}
