using TeamCircle.Core.Things;
using TeamCircle.Data.Things;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Things;

/// <summary>What is said about things that were promised.</summary>
public static class ThingWords
{
    public static string Of(ThingKind kind) => kind switch
    {
        ThingKind.Aid => "aid",
        ThingKind.Device => "device",
        ThingKind.AccessibleMaterials => "materials in accessible form",
        _ => "training",
    };

    public static string Of(ThingPlace place) => place switch
    {
        ThingPlace.Home => "at home",
        ThingPlace.School => "at school",
        ThingPlace.WithProvider => "with a provider",
        _ => "somewhere else",
    };

    /// <summary>What a button says that notes it.</summary>
    public static string Of(ThingAct act, ThingKind kind) => act switch
    {
        ThingAct.InPlace => kind == ThingKind.Training ? "It took place" : "It is here",
        ThingAct.Broken => "Broken",
        ThingAct.Works => "Works again",
        ThingAct.LoanerHere => "A loaner is here",
        ThingAct.LoanerBack => "The loaner went back",
        ThingAct.Moved => "Is somewhere else now",
        _ => "Given back",
    };

    /// <summary>14 days, 10 of them school days; 1 day, a school day</summary>
    public static string Days(DayCount days) => days.Calendar == 1 ? $"1 day, {(days.School == 1 ? "a" : "no")} school day"
        : $"{Say.Count(days.Calendar, "day")}, {Say.Number(days.School)} of them {(days.School == 1 ? "a school day" : "school days")}";

    /// <summary>How it stands, in one sentence.</summary>
    public static string Stands(ThingShown thing) => (thing.Story.State, thing.EndedOn) switch
    {
        (_, { } ended) => $"Promised until {Say.Date(ended)}.",
        (ThingState.Promised, _) => $"Not in place. Promised on {Say.Date(thing.PromisedOn)}{Due(thing)}: {Days(thing.Waited)} so far.",
        (ThingState.OutOfOrder, _) => $"Out of order since {Say.Date(thing.Story.Out!.From)}: {Days(thing.Outages[^1].Days)} so far.",
        (ThingState.Returned, _) => $"Given back on {Say.Date(thing.Story.ReturnedOn!.Value)}.",
        _ when thing.Kind == ThingKind.Training => $"Took place on {Say.Date(thing.Story.InPlaceSince!.Value)}.",
        _ => $"In place since {Say.Date(thing.Story.InPlaceSince!.Value)}{(thing.Story.Where is { } where ? $", {Of(where)}" : "")}.",
    };

    /// <summary>How long it took until it was there first; null where it never was, or where it was there before.</summary>
    public static string? Waited(ThingShown thing) => thing.Story.State != ThingState.Promised && thing.Waited.Calendar > 0
        ? $"From the promise to the first day: {Days(thing.Waited)}." : null;

    /// <summary>5 October to 18 October 2026: 14 days, 10 of them school days. The cable is torn.</summary>
    public static string Of(Outage outage, DayCount days) =>
        $"{(outage.Until is { } until ? Say.Dates(outage.From, until) : $"Since {Say.Date(outage.From)}")}: {Days(days)}. {ThingSentences.Sentence(outage.Happened)}";

    /// <summary>Until when another one stood in, or that it does.</summary>
    public static string Of(Loaner loaner) =>
        $"{loaner.What}, {(loaner.Until is { } until ? Say.Dates(loaner.From, until) : $"since {Say.Date(loaner.From)}")}";

    /// <summary>Palm switch: not in place, due on 5 October</summary>
    public static string Of(ThingWaits waits) => waits switch
    {
        { IsOut: true } => $"{waits.Name}: out of order",
        { DueOn: { } due } => $"{waits.Name}: not in place, due by {Say.Day(due)}",
        _ => $"{waits.Name}: not in place",
    };

    /// <summary>Palm switch out of order: The cable is torn. Meanwhile stood in: the flat one.</summary>
    public static string Of(GoalOutage outage) =>
        $"{outage.Name} out of order{(outage.Goes ? " to this day" : "")}: {ThingSentences.Sentence(outage.Happened)}{(outage.Loaner is { } loaner ? $" Meanwhile stood in: {loaner}." : "")}";

    public static string Of(ThingOut thing) => ThingSentences.Out(thing.Name, thing.Outage);

    public static string? Meanwhile(ThingOut thing) => ThingSentences.Meanwhile(thing.Outage, thing.Loaner);

    private static string Due(ThingShown thing) => thing.DueOn is { } due ? $", due by {Say.Date(due)}" : "";
}
