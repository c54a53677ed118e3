using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Finds the line to which a row belongs.</summary>
internal sealed class LineIndex
{
    private readonly CommitmentLine[] _lines;
    private readonly Dictionary<int, int> _services;
    private readonly Dictionary<int, (int First, int Count)> _goals = [];

    /// <param name="lines">Services first; the lines of a goal stand together.</param>
    public LineIndex(CommitmentLine[] lines)
    {
        _lines = lines;
        _services = new(lines.Length);
        for (var i = 0; i < lines.Length; i++)
        {
            if (!lines[i].IsProbes)
                _services[lines[i].Id] = i;
            else if (_goals.TryGetValue(lines[i].Id, out var place))
                _goals[lines[i].Id] = (place.First, place.Count + 1);
            else
                _goals[lines[i].Id] = (i, 1);
        }
        ByLearner = new(lines);
    }

    public LinesByLearner ByLearner { get; }

    /// <summary>-1 where the service is not among the lines.</summary>
    public int Service(int id) => _services.GetValueOrDefault(id, -1);

    /// <summary>The lines of a goal: the first, and how many.</summary>
    public (int First, int Count) Goal(int id) => _goals.GetValueOrDefault(id);

    /// <summary>The line for which a probe of a goal counts: asked of each owner, their own; asked of any, whoever took it.</summary>
    /// <param name="pays">For a probe that makes up for another day that day, otherwise <see cref="Day.None"/>.</param>
    /// <returns>-1 where it counts for none: taken by somebody of whom it is not asked.</returns>
    public int Probe(int goal, int person, int day, int pays)
    {
        var (first, count) = Goal(goal);
        var found = -1;
        for (var i = first; i < first + count; i++)
        {
            if (_lines[i].OwnerId is { } owner && owner != person)
                continue;
            if (_lines[i].Promise.Dates.Holds(pays == Day.None ? day : pays))
                return i;
            found = i;
        }
        return found;
    }
}
