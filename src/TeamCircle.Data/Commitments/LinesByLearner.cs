namespace TeamCircle.Data.Commitments;

/// <summary>The lines of each learner, by their indexes: learners in the order of their first line, each one's lines in their order.</summary>
/// <remarks>Flat arrays and no object for each learner.</remarks>
public sealed class LinesByLearner
{
    private readonly Dictionary<int, int> _places = [];
    private readonly int[] _lines;
    private readonly int[] _starts;

    internal LinesByLearner(CommitmentLine[] lines)
    {
        var placeOf = new int[lines.Length];
        for (var i = 0; i < lines.Length; i++)
        {
            if (!_places.TryGetValue(lines[i].LearnerId, out placeOf[i]))
                _places[lines[i].LearnerId] = placeOf[i] = _places.Count;
        }
        _starts = new int[_places.Count];
        foreach (var place in placeOf)
            _starts[place]++;
        for (var place = 1; place < _starts.Length; place++)
            _starts[place] += _starts[place - 1];
        _lines = new int[lines.Length];
        for (var i = lines.Length - 1; i >= 0; i--)
            _lines[--_starts[placeOf[i]]] = i; // each goes back from its learner's end to its start
    }

    /// <summary>How many learners there are.</summary>
    public int Learners => _places.Count;

    /// <summary>All lines, learner by learner.</summary>
    public IReadOnlyList<int> All => _lines;

    /// <summary>The lines of a learner; empty where there are none.</summary>
    public ReadOnlySpan<int> Of(int learner) => _places.TryGetValue(learner, out var place) ? At(place) : [];

    /// <summary>The lines of one of <see cref="Learners"/>, counted from 0.</summary>
    public ReadOnlySpan<int> At(int place) => _lines.AsSpan(_starts[place]..(place + 1 < _starts.Length ? _starts[place + 1] : _lines.Length));
}
