using System.Collections.Immutable;

namespace TeamCircle.Core.MakeUps;

/// <summary>A stretch of one day.</summary>
/// <param name="Day">A day number.</param>
/// <param name="Start">Minutes after midnight.</param>
/// <param name="End">Minutes after midnight, above <paramref name="Start"/> and at most 1440; that minute is no longer part of it.</param>
public readonly record struct DayTime(int Day, int Start, int End)
{
    public const int MinutesOfADay = 24 * 60;

    public int Minutes => End - Start;
}

/// <summary>What one window of one service still lacks.</summary>
/// <param name="Line">The service.</param>
/// <param name="Window">A day of the window.</param>
/// <param name="Learner">Null where it takes adults' time only.</param>
/// <param name="Minutes">What lacks, above 0.</param>
/// <param name="Smallest">The fewest minutes of a visit.</param>
/// <param name="Largest">The most minutes of a visit, not below <paramref name="Smallest"/>.</param>
public sealed record Need(string Line, int Window, string? Learner, string Provider, string Place, int Minutes, int Smallest, int Largest);

/// <summary>When a provider works or a learner can be visited.</summary>
/// <param name="Hours">A visit lies wholly in one of them.</param>
/// <param name="DailyLimit">The most minutes of visits a day, travel not counted; null where there is no limit.</param>
public sealed record Availability(string Id, IReadOnlyList<DayTime> Hours, int? DailyLimit);

/// <summary>What stands on the calendar. A group visit has one entry a learner, a visit of two providers one entry each.</summary>
/// <param name="Line">The service that it gives, where known.</param>
/// <param name="Learner">Null where it takes adults' time only.</param>
public sealed record BusyVisit(string? Line, string Provider, string? Learner, string Place, DayTime When);

/// <summary>What make-up visits are looked for; <see cref="MakeUpPlanner"/> says by which rules.</summary>
public sealed record MakeUpProblem
{
    /// <summary>Days on which a visit may be proposed, ascending, each once.</summary>
    public required IReadOnlyList<int> Days { get; init; }

    /// <summary>Starts and lengths of proposed visits are multiples of this, from midnight on.</summary>
    public required int GridMinutes { get; init; }

    public required IReadOnlyList<Need> Needs { get; init; }

    public required IReadOnlyList<Availability> Providers { get; init; }

    public required IReadOnlyList<Availability> Learners { get; init; }

    public required IReadOnlyList<BusyVisit> Busy { get; init; }

    public required TravelTable Travel { get; init; }

    /// <summary>Days that a person does not want for a need, by its line and window.</summary>
    public ImmutableHashSet<(string Line, int Window, int Day)> Refused { get; init; } = [];

    /// <summary>Two places of one provider without a known way between them; null where there are none. Such a problem can't be solved.</summary>
    public (string From, string To)? MissingWay()
    {
        var places = Needs.Select(n => (n.Provider, n.Place)).Concat(Busy.Select(b => (b.Provider, b.Place))).Distinct().ToLookup(p => p.Provider, p => p.Place);
        foreach (var provider in Needs.Select(n => n.Provider).Distinct())
        {
            foreach (var from in places[provider])
            {
                foreach (var to in places[provider].Where(to => Travel.Between(from, to) is null))
                    return (from, to);
            }
        }
        return null;
    }

    /// <summary>The most that visits may give to a need: its minutes rounded up to the grid, or its smallest visit if that is more.</summary>
    internal int MostSteps(Need need) => Math.Max(StepsUp(need.Minutes), need.Smallest / GridMinutes);

    internal int StepsUp(int minutes) => (minutes + GridMinutes - 1) / GridMinutes;
}
