using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Road;
using TeamCircle.Data.Road;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Road;

/// <summary>What is said about the ways between visits.</summary>
public static class RoadWords
{
    public static IReadOnlyList<SelectListItem> Units { get; } = [.. Enum.GetValues<DistanceUnit>().Select(u => new SelectListItem(Say.Begin(Unit(u)), $"{u}"))];

    public static string Unit(DistanceUnit unit) => unit == DistanceUnit.Mile ? "miles" : "kilometres";

    /// <summary>12.4; one decimal, always.</summary>
    public static string Number(int tenths) => (tenths / 10m).ToString("#,0.0", CultureInfo.InvariantCulture);

    /// <summary>12.4 miles</summary>
    public static string Distance(int tenths, DistanceUnit unit) => $"{Number(tenths)} {Unit(unit)}";

    /// <summary>The sum of what is known of a day's ways, with a star where something is not; a dash with a star where nothing is.</summary>
    public static string Known(RoadDay day, Func<RoadLeg, int?> of, Func<int, string> say)
    {
        if (day.Legs.All(l => of(l) is { }))
            return say(day.Legs.Sum(of) ?? 0);
        return day.Legs.Any(l => of(l) is { }) ? $"{say(day.Legs.Sum(of) ?? 0)} *" : "– *";
    }

    /// <summary>October 2026</summary>
    public static string Of(YearMonth month) => month.ToDateInterval().Start.ToString("MMMM uuuu", CultureInfo.InvariantCulture);

    /// <summary>BASE, HERON, ?; a place that is not known is a question mark.</summary>
    public static string Way(RoadDay day, IReadOnlyDictionary<int, RoadPlace> places)
    {
        if (day.Legs.Count == 0)
            return string.Join(" ", day.Stops.Take(1).Select(s => Code(s.Place, places)));
        return string.Join(" – ", day.Legs.Select(l => Code(l.From, places)).Append(Code(day.Legs[^1].To, places)));
    }

    /// <summary>25 minutes, 12.4 miles; what is not known is said so.</summary>
    public static string Of(RoadLeg leg, DistanceUnit unit) => (leg.Minutes, leg.Tenths) switch
    {
        ({ } minutes, { } tenths) => $"{Say.Minutes(minutes)}, {Distance(tenths, unit)}",
        ({ } minutes, null) => $"{Say.Minutes(minutes)}, distance not known",
        _ => "minutes and distance not known",
    };

    /// <summary>Each way of which something is not known once, with its days: BASE to HERON, distance not known: Mon 5 Oct, Tue 6 Oct</summary>
    public static IEnumerable<string> Unknown(RoadMonth month) => month.Days.SelectMany(d => d.Unknown.Select(l => (d.On, Way: Unknown(l, month.Places))))
        .GroupBy(u => u.Way, (way, days) => $"{way}: {string.Join(", ", days.Select(d => Say.ShortDay(d.On)).Distinct())}");

    /// <summary>BASE to HERON, distance not known</summary>
    public static string Unknown(RoadLeg leg, IReadOnlyDictionary<int, RoadPlace> places) =>
        $"{Code(leg.From, places)} to {Code(leg.To, places)}, {(leg.Minutes is null ? "minutes and distance" : "distance")} not known";

    public static string Code(int? place, IReadOnlyDictionary<int, RoadPlace> places) => place is { } id && places.TryGetValue(id, out var found) ? found.Code : "?";
}
