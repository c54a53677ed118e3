using System.Collections.Immutable;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>What a line promises from a day on, in each window (docs/rules.md, part 2).</summary>
/// <param name="From">The first day on which it is in force.</param>
/// <param name="Quantity">Minutes (or probes) in all per window; of a range its low end.</param>
/// <param name="Sessions">Sessions per window, or 0 for any number of sessions.</param>
public readonly record struct PromiseVersion(int From, int Quantity, int Sessions = 0);

/// <summary>What one service line, or one probe commitment, promises (docs/rules.md, part 2).</summary>
/// <remarks>Days are day numbers (<see cref="Day"/>). An amendment that keeps the kind of window is a new version of the same
/// promise; one that changes it is a new promise.</remarks>
public sealed record Promise
{
    /// <param name="every">The kind of window.</param>
    /// <param name="dates">The line's first and last day.</param>
    /// <param name="versions">Oldest first, the first from the line's first day.</param>
    /// <exception cref="ArgumentException">The dates are empty, a count is below one or not allowed for its unit, or the
    /// versions are missing, negative, out of order, or do not start with the line.</exception>
    public Promise(Every every, DateRange dates, params PromiseVersion[] versions)
    {
        if (every.Count < 1 || (every.Count > 1 && every.Unit is (EveryUnit.Period or EveryUnit.PlanYear)))
            throw new ArgumentException("A window is counted in one or more weeks or months, or is one period or plan year.", nameof(every));
        if (dates.IsEmpty)
            throw new ArgumentException("A line ends on or after its first day.", nameof(dates));
        if (versions.Length == 0 || versions[0].From != dates.First)
            throw new ArgumentException("The first version starts with the line.", nameof(versions));
        for (var i = 0; i < versions.Length; i++)
        {
            if (versions[i].Quantity < 0 || versions[i].Sessions < 0 || (i > 0 && versions[i].From <= versions[i - 1].From))
                throw new ArgumentException("Versions come oldest first and promise nothing below zero.", nameof(versions));
            HasSessions |= versions[i].Sessions > 0;
        }
        (Every, Dates, Versions) = (every, dates, [.. versions]);
    }

    public Every Every { get; }

    /// <summary>From <em>a</em> to <em>b</em>; both days belong to the line.</summary>
    public DateRange Dates { get; }

    /// <summary>Oldest first; each is in force until the day before the next.</summary>
    public ImmutableArray<PromiseVersion> Versions { get; }

    /// <summary>The terms in which the line runs.</summary>
    public LineTerms Terms { get; init; } = LineTerms.Regular;

    /// <summary>The line's own rule for windows with fewer school days, or null for the agency's.</summary>
    public ShortWindow? ShortWindow { get; init; }

    /// <summary>A wording that cannot be judged ("up to", "as needed"): nothing counts as owed, and the line is never met.</summary>
    public Wording? Wording { get; init; }

    /// <summary>Whether any version promises a number of sessions.</summary>
    public bool HasSessions { get; }

    /// <summary>The days on which a version is in force, within the line's dates.</summary>
    public DateRange InForce(int version) =>
        new(Versions[version].From, version + 1 < Versions.Length ? Math.Min(Versions[version + 1].From - 1, Dates.Last) : Dates.Last);

    /// <summary>The version in force on a day of the line.</summary>
    public PromiseVersion On(int day)
    {
        var found = Versions[0];
        for (var i = 1; i < Versions.Length && Versions[i].From <= day; i++)
            found = Versions[i];
        return found;
    }

    /// <summary>
    /// As many sessions as minutes stand for: minutes divided by the length of a session on that day, rounded up (rules, part 6).
    /// 0 where no sessions are promised then.
    /// </summary>
    public int SessionsIn(int minutes, int day)
    {
        var version = On(day);
        return version.Sessions > 0 && version.Quantity > 0 ? new Ratio((Int128)minutes * version.Sessions, version.Quantity).RoundedUp : 0;
    }
}
