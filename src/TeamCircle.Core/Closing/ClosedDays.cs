using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Closing;

/// <summary>The days that bear on a closed count; both ends belong to them.</summary>
/// <param name="Days">Day numbers.</param>
public readonly record struct ClosedDays(DateRange Days)
{
    /// <summary>Whether a dated fact would change what was sealed. A make-up that lies after these days and names one of them would not: it pays
    /// what was brought forward from there (docs/rules.md, part 7). The database's own wall holds the same rule.</summary>
    /// <param name="day">Its own day.</param>
    /// <param name="pays">For a make-up: the day that it names.</param>
    public bool Refuse(LocalDate day, LocalDate? pays) =>
        Day.Of(day) <= Days.Last && (Day.Of(day) >= Days.First || (pays is { } named && Days.Holds(Day.Of(named))));
}
