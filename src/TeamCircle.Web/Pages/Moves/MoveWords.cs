using TeamCircle.Core.Moves;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>People and learners who come and go, in words.</summary>
public static class MoveWords
{
    /// <summary>2 services, 1 goal, 14 visits to come; they manage this learner</summary>
    public static string Counts(IEnumerable<HandOverItem> items)
    {
        var kinds = items.GroupBy(i => i.Kind).ToDictionary(g => g.Key, g => g.Count());
        List<string> parts = [];
        foreach (var (kind, one) in new[] { (HandOverKind.Service, "service"), (HandOverKind.Goal, "goal"), (HandOverKind.Thing, "thing"), (HandOverKind.VisitToCome, "visit"), (HandOverKind.Supervision, "assistant") })
        {
            if (kinds.TryGetValue(kind, out var count))
                parts.Add(Say.Count(count, one) + (kind == HandOverKind.VisitToCome ? " to come" : kind == HandOverKind.Supervision ? " supervised" : ""));
        }
        if (parts.Count == 0 && kinds.TryGetValue(HandOverKind.Series, out var series))
            parts.Add(series == 1 ? "a series without visits so far" : $"{Say.Number(series)} series without visits so far");
        if (kinds.ContainsKey(HandOverKind.CaseManagement))
            parts.Add("they are the case manager");
        return Say.Begin(Say.List(parts));
    }

    /// <summary>Visit of 14 September, not logged</summary>
    public static string Of(HandOverItem item, IReadOnlyDictionary<int, string> periods) => item.Kind switch
    {
        HandOverKind.VisitNotLogged => $"Visit of {Say.Date(item.On!.Value)}, not logged",
        HandOverKind.ToConfirm => $"Visit of {Say.Date(item.On!.Value)}: a colleague says that they gave it together",
        HandOverKind.Countersign => $"Visit of {Say.Date(item.On!.Value)} by an assistant, not countersigned. After the last day the case manager signs it.",
        HandOverKind.Report => $"Progress report, {periods.GetValueOrDefault(item.Id!.Value, "one period")}: their part or signature is missing",
        HandOverKind.SetAside => "Something that a device sent needs a person",
        HandOverKind.Device => item.On is { } contact
            ? $"Has not sent anything since {Say.Date(contact)}. What it keeps unsent nobody can know: open it once more, then revoke it."
            : "Has never been in contact. Revoke it.",
        _ => "",
    };

    public static string Begin(HandOverKind kind) => kind == HandOverKind.Device ? "A device" : "Set aside";

    /// <summary>Where the person deals with it themselves; null where they can't.</summary>
    public static string? Address(HandOverItem item) => item.Kind switch
    {
        HandOverKind.VisitNotLogged => $"/visits/{item.Visit}/log",
        HandOverKind.ToConfirm => $"/sessions/{item.Session}/confirm",
        HandOverKind.Countersign => $"/sessions/{item.Session}/countersign",
        HandOverKind.Report => $"/reports/{item.Id}",
        HandOverKind.SetAside => "/set-aside",
        HandOverKind.Device => "/account/devices",
        _ => null,
    };

    public static string Act(HandOverKind kind) => kind switch
    {
        HandOverKind.VisitNotLogged => "Log",
        HandOverKind.ToConfirm => "Answer",
        HandOverKind.Countersign => "Read and sign",
        HandOverKind.Device => "Devices",
        _ => "Open",
    };

    /// <summary>To Priya Lindqvist from 8 October 2026; Odalys Ferreira is the case manager then</summary>
    public static string Of(HandedOverShown done)
    {
        var to = done.To is { } name ? $"To {name} from {Say.Date(done.From)}" : $"To nobody yet: nobody is assigned from {Say.Date(done.From)}";
        return done.Manager is { } manager ? $"{to}; {manager} is the case manager then" : to;
    }

    /// <summary>Handed over to Priya Lindqvist: 14 visits. 2 visits stay on the list, because something stands against them.</summary>
    public static string Of(HandOverLearner.Saved saved)
    {
        var words = saved.To is { } to ? $"Handed over to {to}{(saved.Visits == 0 ? "" : $": {Say.Count(saved.Visits, "visit")}")}." : $"Nobody is assigned after the last day. {Say.Count(saved.Visits, "visit")} to come {(saved.Visits == 1 ? "is" : "are")} not planned any more.";
        return saved.Left == 0 ? words : $"{words} {Say.Count(saved.Left, "visit")} could not be handed over, because something stands against {(saved.Left == 1 ? "it" : "them")} at that time: plan {(saved.Left == 1 ? "it" : "them")} anew.";
    }

    /// <summary>A visit can no longer be logged: they had left before they wrote it</summary>
    public static string Of(FiledShown filed) => $"{Filed(filed.What)} by {filed.Person}: {filed.Words}";

    private static string Filed(HandOverKind what) => what switch
    {
        HandOverKind.Report => "A progress report can no longer be signed",
        HandOverKind.ToConfirm => "A visit together can no longer be confirmed",
        HandOverKind.Countersign => "An assistant's entry can no longer be countersigned",
        _ => "A visit can no longer be logged",
    };

    /// <summary>What filing says of it: It can no longer be logged</summary>
    public static string ToFile(HandOverKind kind) => kind switch
    {
        HandOverKind.Report => "It can no longer be signed",
        HandOverKind.ToConfirm => "It can no longer be confirmed",
        HandOverKind.Countersign => "Nobody can stand for it",
        _ => "It can no longer be logged",
    };

    /// <summary>Priya Lindqvist comes on Tuesday 8 December at 11:00 am.</summary>
    public static string Of(DecideLeftVisit.Saved saved) => saved.To is { } to
        ? $"{to} comes on {Say.Weekday(saved.OnDay)} at {Say.Time(saved.Start)}."
        : $"The visit of {Say.Weekday(saved.OnDay)} is called off: nobody comes.";

    public static string Of(MoveInStatus status) => status switch
    {
        MoveInStatus.Adopted => "adopted as it is",
        MoveInStatus.Replaced => "replaced by a plan of our own",
        _ => "followed by comparable services",
    };

    /// <summary>Comparable services are given until it is adopted or replaced. Adopted as it is from 2 November 2026, Marisol Quenby: with both parents.</summary>
    public static string Standing(MoveInShown stands) => stands.DecidedOn is { } day
        ? $"{Say.Begin(Of(stands.Status))} from {Say.Date(day)}, {stands.DecidedBy}: {stands.DecidedWords}"
        : $"Comparable services are given until that plan is {(stands.OtherState ? "" : "adopted or ")}replaced.";

    /// <summary>What the regulation asks for, in our words.</summary>
    public static string Rule(MoveInShown stands) => stands.OtherState
        ? "A plan from another state: comparable services, in consultation with the parents, until the agency has evaluated where it finds that necessary and, if appropriate, a new plan is in force (34 CFR 300.323(f))."
        : "A plan from the same state: comparable services, in consultation with the parents, until the agency adopts that plan or a new one is in force (34 CFR 300.323(e)).";

    public static string Of(TransferGround ground) => ground == TransferGround.Consent
        ? "the parent's written consent (34 CFR 99.30)"
        : "the learner seeks or intends to enroll there, or is enrolled (34 CFR 99.31(a)(2), 300.323(g)(2))";

    /// <summary>Percent without help: from 20 to 80 by 30 May 2027; at present 45, on 2 October 2026.</summary>
    public static string Level(TransferGoal goal)
    {
        var words = Say.Begin(Say.Measure(goal.Measure));
        if (goal.Target is { } target)
            words += $": {(goal.Baseline is { } from ? $"from {GoalWords.Number(from)} " : "")}to {GoalWords.Number(target)}";
        if (goal.TargetDay is { } day)
            words += $" by {Say.Date(day)}";
        return goal is { Now: { } now, NowOn: { } on } ? $"{words}; at present {GoalWords.Number(now)}, last probed on {Say.Date(on)}"
            : $"{words}; {(goal.NowOn is { } last ? $"too few probes for a present level, last probed on {Say.Date(last)}" : "not probed yet")}";
    }
}
