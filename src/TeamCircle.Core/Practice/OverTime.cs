using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Core.Practice;

/// <summary>What one practice says of position and switch.</summary>
/// <param name="Answers">Closures of the learner's own switch that answered a step.</param>
/// <param name="Unasked">Closures of it that nobody had asked for.</param>
public sealed record PractisedConditions(LocalDate Day, Conditions Conditions, int Answers, int Unasked);

/// <summary>A position, with its equipment, on one day, over all practices and all adults.</summary>
/// <param name="Position">As it was written; null where only what came of it was.</param>
/// <param name="Minutes">Time in it: what the practices' times cover together, so that two that overlap count once; null where no practice has both
/// times, such as 09:05, the second after the first.</param>
/// <param name="Tilt">In the order in which they were said, each once; so are the two that follow.</param>
/// <param name="Tolerance">How it was borne.</param>
/// <param name="Skin">The skin when it was taken off.</param>
public sealed record PositionDay(
    LocalDate Day, string? Position, int? Minutes, IReadOnlyList<string> Tilt, IReadOnlyList<string> Tolerance, IReadOnlyList<string> Skin);

/// <summary>A switch, with where it stood, on one day, over all practices and all adults.</summary>
/// <param name="Switch">As it was written; null where nobody said which.</param>
/// <param name="Hits">What the adults counted; in a practice where they counted none, closures that answered a step. Null where there is neither.</param>
/// <param name="Misses">Null where nobody counted.</param>
public sealed record SwitchDay(LocalDate Day, string? Switch, int? Hits, int? Misses, int Unasked)
{
    /// <summary>"7 of 10": hits of hits and misses; null where nobody counted the misses.</summary>
    public CountOf? Share => Misses is { } misses ? new(Hits ?? 0, (Hits ?? 0) + misses) : null;
}

/// <summary>Time in position, skin and tolerance, and hits, misses and unasked closures of the switch, day by day. It records; it judges nothing.</summary>
public static class OverTime
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>Newest day first. A practice counts where somebody wrote down more than the position that the card has: equipment, times, tilt,
    /// tolerance or skin.</summary>
    public static IReadOnlyList<PositionDay> Positions(IEnumerable<PractisedConditions> practices) =>
        [.. practices.Where(p => IsWritten(p.Conditions)).GroupBy(p => (p.Day, Position: Join(p.Conditions.Position, p.Conditions.Equipment)))
            .OrderByDescending(g => g.Key.Day).ThenBy(g => g.Key.Position, StringComparer.Ordinal)
            .Select(g => new PositionDay(
                g.Key.Day, g.Key.Position, Minutes(g.Select(p => p.Conditions)), Said(g, c => c.Tilt), Said(g, c => c.Tolerance), Said(g, c => c.Skin)))];

    /// <summary>Newest day first. A practice counts where anything was counted, or closed.</summary>
    public static IReadOnlyList<SwitchDay> Switches(IEnumerable<PractisedConditions> practices) =>
        [.. practices.Where(p => Hits(p) is not null || p.Conditions.Misses is not null || p.Unasked > 0)
            .GroupBy(p => (p.Day, Switch: Join(p.Conditions.Switch, p.Conditions.SwitchSite, p.Conditions.SwitchSide)))
            .OrderByDescending(g => g.Key.Day).ThenBy(g => g.Key.Switch, StringComparer.Ordinal)
            .Select(g => new SwitchDay(g.Key.Day, g.Key.Switch, Sum(g.Select(Hits)), Sum(g.Select(p => p.Conditions.Misses)), g.Sum(p => p.Unasked)))];

    private static bool IsWritten(Conditions c) => new[] { c.Equipment, c.TimeIn, c.TimeOut, c.Tilt, c.Tolerance, c.Skin }.Any(text => !string.IsNullOrWhiteSpace(text));

    private static int? Hits(PractisedConditions practice) => practice.Conditions.Hits ?? (practice.Answers > 0 ? practice.Answers : null);

    private static int? Sum(IEnumerable<int?> counts) => counts.Aggregate((int?)null, (sum, count) => count is null ? sum : (sum ?? 0) + count);

    private static int? Minutes(IEnumerable<Conditions> conditions)
    {
        var spans = conditions.Select(Span).OfType<(int From, int To)>().OrderBy(s => s.From).ToList();
        var (minutes, until) = (0, int.MinValue);
        foreach (var (from, to) in spans)
        {
            minutes += Math.Max(0, to - Math.Max(from, until));
            until = Math.Max(until, to);
        }
        return spans.Count == 0 ? null : minutes;
    }

    private static (int From, int To)? Span(Conditions c) =>
        Minute(c.TimeIn) is { } from && Minute(c.TimeOut) is { } to && to > from ? (from, to) : null;

    private static int? Minute(string? time) => Clock.Parse(time ?? "") is { Success: true } read ? (read.Value.Hour * 60) + read.Value.Minute : null;

    private static IReadOnlyList<string> Said(IEnumerable<PractisedConditions> practices, Func<Conditions, string?> of) =>
        [.. practices.Select(p => of(p.Conditions)?.Trim().TrimEnd('.')).Where(text => !string.IsNullOrEmpty(text)).Distinct().Select(text => text!)];

    private static string? Join(params string?[] parts) =>
        string.Join("; ", parts.Where(p => !string.IsNullOrWhiteSpace(p)).Select(p => p!.Trim().TrimEnd('.'))) is { Length: > 0 } joined ? joined : null;
}
