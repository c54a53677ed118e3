using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Counts what was given otherwise than promised: at another place, in another format, or by somebody not named that day.</summary>
/// <param name="days">The days that are looked at; both ends belong to them.</param>
internal sealed class GivenOtherwise(DateRange days)
{
    private readonly Dictionary<(int Line, CheckKind Kind), int> _counts = [];

    public IEnumerable<LineCheck> Checks => _counts.Select(c => new LineCheck(c.Key.Line, c.Key.Kind, c.Value));

    /// <summary>Looks at a visit given.</summary>
    /// <param name="index">The line's place among the lines.</param>
    public void Look(int index, CommitmentLine line, int person, int day, Place place, SessionFormat format)
    {
        if (!days.Holds(day))
            return;
        if (!line.IsNamed(person, day))
            Count(index, CheckKind.ByOther);
        if (line.Service!.Place != place)
            Count(index, CheckKind.OtherPlace);
        if (line.Service.Format != format)
            Count(index, CheckKind.OtherFormat);
    }

    /// <summary>Looks at a probe.</summary>
    /// <param name="index">The first of the goal's lines.</param>
    /// <param name="owners">The goal's owners.</param>
    public void Look(int index, ReadOnlySpan<Named> owners, int person, int day)
    {
        if (!days.Holds(day))
            return;
        foreach (var owner in owners)
        {
            if (owner.PersonId == person && owner.Days.Holds(day))
                return;
        }
        Count(index, CheckKind.ByOther);
    }

    private void Count(int line, CheckKind kind) => _counts[(line, kind)] = _counts.GetValueOrDefault((line, kind)) + 1;
}
