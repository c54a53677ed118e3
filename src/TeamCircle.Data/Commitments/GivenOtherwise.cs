using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Counts what was given otherwise than promised: at another place, in another format, or by somebody not named that day.</summary>
/// <remarks>Rows come in the order of their days, so that each is of another line: what most of them need lies side by side in flat
/// arrays, and a line's own objects are asked for the others alone.</remarks>
internal sealed class GivenOtherwise
{
    private readonly CommitmentLine[] _lines;
    private readonly DateRange _days;
    private readonly (Place Place, SessionFormat Format)[] _promised;
    private readonly Named[] _named;
    private readonly Dictionary<(int Line, CheckKind Kind), int> _counts = [];

    /// <param name="days">The days that are looked at; both ends belong to them.</param>
    public GivenOtherwise(CommitmentLine[] lines, DateRange days)
    {
        (_lines, _days) = (lines, days);
        (_promised, _named) = (new (Place, SessionFormat)[lines.Length], new Named[lines.Length]);
        for (var i = 0; i < lines.Length; i++)
        {
            if (lines[i].Service is { } service)
                _promised[i] = (service.Place, service.Format);
            if (lines[i].Named is [var first, ..])
                _named[i] = first;
        }
    }

    public IEnumerable<LineCheck> Checks => _counts.Select(c => new LineCheck(c.Key.Line, c.Key.Kind, c.Value));

    /// <summary>Looks at a visit given.</summary>
    /// <param name="line">The place of its service among the lines.</param>
    public void Look(int line, int person, int day, Place place, SessionFormat format)
    {
        if (!_days.Holds(day))
            return;
        if ((_named[line].PersonId != person || !_named[line].Days.Holds(day)) && !_lines[line].IsNamed(person, day))
            Count(line, CheckKind.ByOther);
        if (_promised[line].Place != place)
            Count(line, CheckKind.OtherPlace);
        if (_promised[line].Format != format)
            Count(line, CheckKind.OtherFormat);
    }

    /// <summary>Looks at a probe.</summary>
    /// <param name="line">The place of the first of the goal's lines.</param>
    /// <param name="owners">The goal's owners.</param>
    public void Look(int line, ReadOnlySpan<Named> owners, int person, int day)
    {
        if (!_days.Holds(day))
            return;
        foreach (var owner in owners)
        {
            if (owner.PersonId == person && owner.Days.Holds(day))
                return;
        }
        Count(line, CheckKind.ByOther);
    }

    private void Count(int line, CheckKind kind) => _counts[(line, kind)] = _counts.GetValueOrDefault((line, kind)) + 1;
}
