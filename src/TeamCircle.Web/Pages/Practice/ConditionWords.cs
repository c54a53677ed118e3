using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>The conditions strip in words; what nobody said is left out.</summary>
public static class ConditionWords
{
    public static IEnumerable<(string Name, string Value)> Of(PracticeRecord record)
    {
        var c = record.Conditions;
        (string Name, string? Value)[] lines =
        [
            ("State", States(c.State)), ("News from home", c.News),
            ("Presented", Join(c.Side, c.Height, c.Distance)), ("Light and background", Join(c.Light, c.Background)),
            ("Position", Join(c.Position, c.Equipment, c.Tilt, Span(c.TimeIn, c.TimeOut))), ("Tolerance", c.Tolerance), ("Skin on removal", c.Skin),
            ("Hand", c.Hand), ("Support at", c.SupportAt),
            ("Switch", Join(c.Switch, c.SwitchSite, c.SwitchSide, c.Mount)), ("Hits and misses", Hits(c)),
            ("Closures that nobody asked for", record.UnaskedClosures.Count > 0 ? Say.Number(record.UnaskedClosures.Count) : null),
            ("Who was there", c.Present), ("Glasses", c.Glasses), ("Hearing aids", c.HearingAids), ("Splints", c.Splints),
            ("What filled the hour", record.Filled.Count > 0 ? Sessions.VisitWords.Filled(record.Filled) : null),
        ];
        return lines.Where(l => !string.IsNullOrWhiteSpace(l.Value)).Select(l => (l.Name, l.Value!));
    }

    private static string? States(StatesOfLearner states) =>
        Join(At("at the start", states.Start), At("in the middle", states.Middle), At("at the end", states.End));

    private static string? At(string when, StateOfLearner? state) => state is { } known ? $"{Words.Of(known)} {when}" : null;

    private static string? Span(string? from, string? to) => (from, to) switch
    {
        (null, null) => null,
        ({ } start, null) => $"from {start}",
        (null, { } end) => $"until {end}",
        var (start, end) => $"{start} to {end}",
    };

    private static string? Hits(Conditions c) => Join(c.Hits is { } hits ? Say.Count(hits, "hit") : null, c.Misses is { } misses ? $"{Say.Number(misses)} missed" : null);

    /// <summary>What the team wrote may be sentences: their points would stand before the separator.</summary>
    private static string? Join(params string?[] parts) =>
        string.Join("; ", parts.Where(p => !string.IsNullOrWhiteSpace(p)).Select(p => p!.Trim().TrimEnd('.'))) is { Length: > 0 } joined ? joined : null;
}
